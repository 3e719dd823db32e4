"""Fixtures that every test can ask for, and how many examples a law is tried on."""

import os
from collections.abc import Callable
from tempfile import TemporaryDirectory
from textwrap import dedent

import pytest
from hypothesis import settings

from tactics.model.rule import RuleSet
from tactics.problem import Reading
from tactics.reading.rules import read_rules
from tactics.source import Source
from tests.golden import Golden

settings.register_profile("quick", max_examples=30, deadline=None)
settings.register_profile("ci", max_examples=100, deadline=None, derandomize=True)
settings.register_profile("deep", max_examples=10_000, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))

Read = Callable[[str], Reading[RuleSet]]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update", action="store_true", help="write the expected texts in tests/cases anew"
    )


def pytest_configure(config: pytest.Config) -> None:
    """Keep every test, and every process it starts, away from the answers kept on this machine.

    Not a fixture: some modules copy the environment while they are imported.
    """
    folder = TemporaryDirectory(prefix="tactics-tests-")
    config.add_cleanup(folder.cleanup)
    for name in ("XDG_DATA_HOME", "LOCALAPPDATA", "WIN_PD_OVERRIDE_LOCAL_APPDATA"):
        os.environ[name] = folder.name
    # many tests start the program: it is compiled once, not every time
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """Keep benchmarks and `--update` in one process; everything else runs on every core."""
    return 0 if config.getoption("--benchmark-only") or config.getoption("--update") else None


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Golden:
    """Return a check of a text against the file that holds it: golden("problems/tab.txt", text)."""
    return Golden(update=request.config.getoption("--update"))


@pytest.fixture
def read() -> Read:
    """Return a reader of a rule set written into a test, set in as far as the test is."""

    def read_text(text: str) -> Reading[RuleSet]:
        return read_rules(Source(name="club.yaml", text=dedent(text).lstrip("\n")))

    return read_text
