"""What each dam is made of: a strip from stock, or pieces sawn from sheet; alike ones may swap."""

from dataclasses import dataclass
from itertools import pairwise

from nesting.schedules.cuts import DamCut, Profile, dam_cuts
from nesting.tape import CLOSE
from nesting.values.casts import Layout
from nesting.values.job import Job


@dataclass(frozen=True, slots=True)
class Piece:
    """What one dam is made of [steps]; dams of equal pieces can be one and the same.

    ``length`` is that of the foot. ``profile`` and ``parted_at`` are of a dam sawn from sheet, None
    and () of a strip. ``leans`` [degrees] are those of a strip whose sides are not square.
    """

    length: int
    width: int
    height: int
    profile: Profile | None = None
    parted_at: tuple[int, ...] = ()
    leans: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())

    @property
    def is_strip(self) -> bool:
        """Whether it is a strip, cut from stock of its width and height."""
        return self.profile is None

    @property
    def parts(self) -> tuple[int, ...]:
        """The lengths of what it is parted into [steps], the whole where it is not."""
        return tuple(b - a for a, b in pairwise((0, *self.parted_at, self.length)))


def list_pieces(job: Job, layout: Layout) -> tuple[Piece, ...]:
    """Return what the dams of a layout are made of, in the order of its dams.

    A strip that bends is also laid straight, so a bent and a straight one of a length are alike.
    """
    return tuple(_piece(job, cut) for cut in dam_cuts(job, layout))


def _piece(job: Job, cut: DamCut) -> Piece:
    width = next((each for each in job.dam_widths if abs(each - cut.width) <= CLOSE), cut.width)
    if cut.kind == "cut":
        return Piece(cut.length, width, cut.height, cut.profile, cut.parted_at or ())
    return Piece(cut.length, width, cut.height, leans=cut.leans)
