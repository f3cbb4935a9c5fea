"""The time of a print: the machine's clock, read in this one place, or the time it is told.

`SOURCE_DATE_EPOCH`, seconds since 1970 in UTC, is the standard of reproducible-builds.org for
output that must be the same bytes each time.
"""

import os
from datetime import UTC, datetime

from nesting.errors import InputError, shown

_NAME = "SOURCE_DATE_EPOCH"
_LAST = 253_402_300_799  # the end of the year 9999


def read_clock() -> datetime:
    """Return the time of day where the machine stands; that of SOURCE_DATE_EPOCH where it is set.

    Raises
    ------
    InputError
        Where that is no whole number of seconds up to the year 9999.
    """
    told = os.environ.get(_NAME, "")
    if not told:
        return datetime.now()
    if not (told.isascii() and told.isdecimal() and len(told) < 16 and int(told) <= _LAST):
        rule = "must be whole seconds since 1970 in UTC, as reproducible-builds.org has it"
        raise InputError(_NAME, rule, shown(told), "set it to such a number, or unset it")
    return datetime.fromtimestamp(int(told), UTC).replace(tzinfo=None)
