"""Fewest casts: column generation with an exact certificate, then whole numbers.

(Gilmore & Gomory 1961, 1965.)
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from nesting.search.bound import SCALE, point_bound
from nesting.search.closing import cast_with, fill_casts, list_heavy
from nesting.search.conflicts import find_points
from nesting.search.instance import Certificate, Counts, Instance, PlaceSet
from nesting.search.master import Casts, LayoutMix, Pool, count_casts, mix_layouts
from nesting.search.pricing import Priced, Pricer
from nesting.search.solver import Deadline, Report, silent

_FIRST_NODES = 20
_FEW = 5
"""Up to so many casts are filled in one model."""


class CastSearch:
    """One search for the fewest casts of an instance; keeps the best schedule and bound so far.

    A ``certificate`` given says that the instance holds some places only, and is what can be
    proved for all of them; then nothing more is claimed.
    """

    def __init__(
        self,
        instance: Instance,
        deadline: Deadline,
        report: Report = silent,
        certificate: Certificate | None = None,
    ) -> None:
        self.instance, self.deadline, self.report = instance, deadline, report
        self.points = find_points(instance)
        self.pricer = Pricer(instance, self.points)
        self.pool = Pool()
        self.is_whole = certificate is None
        self.certificate = certificate or point_bound(instance, self.points, deadline)[0]
        self.sharpest = self.certificate
        self.best: Casts = []
        self._begin()

    @property
    def casts(self) -> int:
        """Casts of the best schedule found."""
        return sum(repeats for repeats, _ in self.best)

    @property
    def done(self) -> bool:
        """Whether bound and schedule meet, or time is up."""
        return self.casts == self.certificate.bound or self.deadline.passed

    def run(self) -> None:
        """Search until bound and schedule meet, nothing more is known to try, or time is up."""
        for step in (
            partial(self._fill_few, seconds=3.0),
            self._generate,
            self._whole,
            self._dive,
            self._whole,
            self._sharpen,
            self._settle,
            partial(self._fill_few, seconds=20.0),
        ):
            if self.done:
                return
            step()
            self.report(f"{self.casts} casts, at least {self.certificate.bound}")

    def _begin(self) -> None:
        """Cast the heaviest layout of what is left, as often as it goes, until nothing is left."""
        self._offer(self._cover(self.instance.demand, self.certificate.prices))
        self.report(f"{self.casts} casts, at least {self.certificate.bound}")

    def _cover(self, demand: Counts, prices: Sequence[int]) -> Casts:
        left = list(demand)
        casts: Casts = []
        while any(left):
            counts = self._price(prices, tuple(left)) if not self.deadline.passed else None
            if counts is None or not any(c and n for c, n in zip(counts, left, strict=True)):
                counts = self._keep((), left)
            repeats = max(1, min(n // c for n, c in zip(left, counts, strict=True) if c))
            casts.append((repeats, counts))
            left = [max(0, n - repeats * c) for n, c in zip(left, counts, strict=True)]
        return casts

    def _price(self, prices: Sequence[int], limits: Counts) -> Counts | None:
        time = self.deadline.within(self.deadline.left / 4)
        priced = self.pricer.heaviest(prices, limits, time, most_nodes=_FIRST_NODES)
        return self._keep(priced.layout, limits) if priced.layout else None

    def _keep(self, layout: PlaceSet, limits: Sequence[int]) -> Counts:
        """Fill a layout up, put it in the pool, and return its counts."""
        full = self.pricer.fill(layout, limits)
        counts = self.instance.counts(full)
        self.pool.add(counts, full)
        return counts

    def _offer(self, casts: Casts | None) -> None:
        if casts and (not self.best or sum(r for r, _ in casts) < self.casts):
            self.best = casts

    def _claim(self, certificate: Certificate) -> None:
        if not self.is_whole:
            return
        if certificate.bound > self.certificate.bound:
            self.certificate = certificate
        this, known = certificate, self.sharpest
        if this.demand * known.heaviest > known.demand * this.heaviest:
            self.sharpest = this

    def _sharpen(self) -> None:
        """Price with the fractional mix to the end, for the sharpest certificate."""
        mix = self._generate_for(self.instance.demand)
        self._price_exactly(mix)

    def _settle(self) -> None:
        """Decide the number of casts at the bound, and then the next, by enumeration."""
        demand = self.instance.demand
        while self.is_whole and not self.done:
            sharp, casts = self.sharpest, self.certificate.bound
            least = sharp.demand - (casts - 1) * sharp.heaviest
            heavy = list_heavy(self.pricer, sharp.prices, demand, least, self.deadline)
            if heavy is None:
                return
            for counts, layout in heavy.items():
                self.pool.add(counts, layout)
            found, refuted = cast_with(list(heavy), demand, casts, self.deadline)
            self._offer(found)
            if not refuted:
                return
            self.certificate = replace(sharp, enumerated=len(heavy), raised_to=casts + 1)

    def _generate(self) -> None:
        """Add layouts while they improve the fractional mix (column generation)."""
        demand = self.instance.demand
        while not self.done:
            mix = mix_layouts(self.pool, demand)
            if mix.value <= self.certificate.bound + 1e-7:
                return
            priced = self._price_exactly(mix)
            before = len(self.pool.layouts)
            self._keep(priced.layout, demand)
            if priced.weight <= SCALE or len(self.pool.layouts) == before:
                return

    def _price_exactly(self, mix: LayoutMix) -> Priced:
        """Find the heaviest layout at the mix's prices in whole numbers; claim what it proves."""
        demand = self.instance.demand
        prices = tuple(int(np.floor(price * SCALE + 1e-3)) for price in mix.prices)
        priced = self.pricer.heaviest(prices, demand, self.deadline)
        total = sum(p * q for p, q in zip(prices, demand, strict=True))
        if priced.limit:
            self._claim(Certificate(prices, priced.limit, total))
        return priced

    def _whole(self) -> None:
        """Find the fewest casts of the layouts known."""
        found = count_casts(
            self.pool, self.instance.demand, self.certificate.bound, self.deadline.within(5)
        )
        self._offer(found)

    def _fill_few(self, seconds: float) -> None:
        """Where few casts may do, fill them all at once."""
        self._offer(self._filled(self.instance.demand, self.certificate.bound, seconds))

    def _filled(self, demand: Counts, casts: int, seconds: float) -> Casts | None:
        """Return a schedule of a few casts, one by one, if it is found in so many seconds."""
        if casts > _FEW:
            return None
        time = self.deadline.within(min(seconds, self.deadline.left / 3))
        layouts, _ = fill_casts(self.instance, self.points, demand, casts, time)
        if layouts is None:
            return None
        counts = Counter(self._keep(layout, self.instance.demand) for layout in layouts)
        return [(repeats, kept) for kept, repeats in counts.items()]

    def _dive(self) -> None:
        """Fix the most used layout of the mix, generate for what is left, and so on down."""
        left = list(self.instance.demand)
        casts: Casts = []
        while any(left) and not self.deadline.passed:
            mix = self._generate_for(tuple(left))
            ahead = int(np.ceil(mix.value - 1e-6))
            last = self._filled(tuple(left), ahead, 5.0) if casts else None
            if last is not None:
                casts += last
                left = [0] * len(left)
                break
            counts, use = max(mix.uses.items(), key=lambda entry: (entry[1], entry[0]))
            repeats = max(1, int(use + 1e-6))
            casts.append((repeats, counts))
            left = [max(0, n - repeats * c) for n, c in zip(left, counts, strict=True)]
        if not any(left):
            self._offer(casts)

    def _generate_for(self, demand: Counts) -> LayoutMix:
        while True:
            mix = mix_layouts(self.pool, demand)
            prices = [int(np.floor(price * SCALE + 1e-3)) for price in mix.prices]
            priced = self.pricer.heaviest(prices, demand, self.deadline)
            before = len(self.pool.layouts)
            self._keep(priced.layout, demand)
            done = priced.weight <= SCALE + len(demand) or len(self.pool.layouts) == before
            if done or self.deadline.passed:
                return mix
