"""One headless Chromium for the page tests of a module; without one they are skipped."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, sync_playwright

from tests.pages_in_browser.written_pages import Write, page_writer

_NAMES = ("chromium", "chromium-browser", "google-chrome")
_QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip


@pytest.fixture(scope="module")
def browser() -> Iterator[BrowserContext]:
    """Yield a window of the machine's own Chromium; nothing is downloaded.

    Not for the whole session: its driver keeps an event loop running in this thread, and the
    screens of the program need the thread for theirs.
    """
    found = next((path for name in _NAMES if (path := shutil.which(name))), None)
    if found is None:
        pytest.skip("no Chromium on this machine (apt-get install chromium): pages not opened")
    with sync_playwright() as player:
        opened = player.chromium.launch(executable_path=found, args=list(_QUIET))
        yield opened.new_context(reduced_motion="reduce")
        opened.close()


@pytest.fixture(scope="session")
def write(tmp_path_factory: pytest.TempPathFactory) -> Write:
    """Return a writer of pages."""
    return page_writer(tmp_path_factory.mktemp("pages"))
