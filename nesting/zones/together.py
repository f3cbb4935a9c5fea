"""Whether panels can lie in one cast on one liner, and which few of them are why they cannot."""

from collections.abc import Sequence

import numpy as np

from nesting.search.instance import Instance, as_bits

_MOST_STEPS = 20_000


class CastRoom:
    """Where the panels of one bed may lie on one liner; item n of it is panel ``panels[n]``."""

    def __init__(self, panels: Sequence[int], instance: Instance) -> None:
        self._places: dict[int, int] = {}
        boxes, owner = instance.boxes, instance.owner
        self._free = as_bits(~instance.gaps.meet(boxes, boxes))
        owned = as_bits(owner == np.arange(len(panels))[:, None])
        self._places.update(zip(panels, owned, strict=True))

    def fits(self, parts: Sequence[int]) -> bool | None:
        """Whether the panels, by number, can lie in one cast; None where that took too long."""
        self._steps = 0
        return self._place([self._places[panel] for panel in parts])

    def reason(self, parts: Sequence[int]) -> tuple[int, ...] | None:
        """Return panels among those that cannot lie in one cast, though all but any one can.

        None where all can, or where it took too long to say.
        """
        if self.fits(parts) is not False:
            return None
        kept = list(parts)
        for panel in parts:
            fewer = list(kept)
            fewer.remove(panel)
            if self.fits(fewer) is False:
                kept = fewer
        return tuple(kept)

    def _place(self, left: list[int]) -> bool | None:
        """Depth first, the panel with fewest places first."""
        self._steps += 1
        if self._steps > _MOST_STEPS:
            return None
        if not left:
            return True
        chosen = min(range(len(left)), key=lambda n: left[n].bit_count())
        places, rest = left[chosen], left[:chosen] + left[chosen + 1 :]
        while places:
            place = places.bit_length() - 1
            places ^= 1 << place
            free = self._free[place]
            fewer = [each & free for each in rest]
            if all(fewer):
                found = self._place(fewer)
                if found is not False:
                    return found
        return False
