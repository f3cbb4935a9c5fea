"""Marks those cases of a test that take long, for the second run: ``pytest -m long``."""

import pytest


def leave_long(cases, is_long):
    """Return the cases as parameters, those for which ``is_long(case)`` holds marked ``long``."""
    return [
        pytest.param(
            *(case if isinstance(case, tuple) else (case,)),
            marks=[pytest.mark.long] if is_long(case) else [],
        )
        for case in cases
    ]
