"""What tells two prints apart: when they were drawn, and of what job and schedule they are."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Stamp:
    """Date and time of a print, to the minute, and the sheet code of what it shows."""

    drawn: datetime
    code: str

    @property
    def words(self) -> str:
        """What stands on every sheet.

        >>> Stamp(datetime(2026, 3, 2, 7, 5), "K7QM-3XRA").words
        '2026-03-02 07:05, code K7QM-3XRA'
        """
        return f"{self.drawn:%Y-%m-%d %H:%M}, code {self.code}"
