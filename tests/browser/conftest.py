"""One browser for all tests of this folder; they are skipped where there is none."""

import pytest
from chromium import BROWSER, DRIVER, start_browser


@pytest.fixture(scope="session")
def browser(tmp_path_factory):
    """Start a browser with a fresh profile."""
    if not (DRIVER and BROWSER):
        pytest.skip("needs chromium and its chromedriver")
    with start_browser(tmp_path_factory.mktemp("profile")) as started:
        yield started
