"""How long a command takes from nothing to its first line, and what that time goes into."""

import os
import subprocess
import sys

import pytest

COMMANDS = {
    "check": ["check"],
    "advise": ["advise", "game situation=baseline rally", "balance=set"],
}
COSTLIEST = 12
# an installed program has its modules compiled; the warm-up round does that for a checkout
ENVIRONMENT = {n: v for n, v in os.environ.items() if n != "PYTHONDONTWRITEBYTECODE"}


def first_line(arguments: list[str]) -> bytes:
    """Return the first line a fresh process prints; what would come after it is not waited for."""
    with subprocess.Popen(
        [sys.executable, "-m", "tactics", *arguments],
        stdout=subprocess.PIPE,
        env=ENVIRONMENT,
    ) as running:
        assert running.stdout is not None
        line = running.stdout.readline()
        running.kill()
    return line


def import_profile(arguments: list[str]) -> list[tuple[int, str]]:
    """Return (microseconds of its own, module) for the modules that cost most to load."""
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "tactics", *arguments],
        capture_output=True,
        text=True,
        check=True,
        env=ENVIRONMENT,
    )
    rows = [line.removeprefix("import time:").split("|") for line in done.stderr.splitlines()]
    found = [(int(row[0]), row[2].strip()) for row in rows if row[0].strip().isdigit()]
    return sorted(found, reverse=True)[:COSTLIEST]


@pytest.mark.parametrize("name", COMMANDS)
def test_the_first_line_comes_soon(benchmark, name: str) -> None:
    line = benchmark.pedantic(first_line, args=(COMMANDS[name],), rounds=5, warmup_rounds=1)

    assert line.strip()
    print(f"\ncostliest imports of {name}, own time:")
    for microseconds, module in import_profile(COMMANDS[name]):
        print(f"  {microseconds / 1000:6.1f} ms  {module}")
