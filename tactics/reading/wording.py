"""Small pieces of sentences that every message shares."""

from collections.abc import Iterable

_LONGEST = 60


def quoted(written: str) -> str:
    """Return what the coach wrote in quotes, on one line and cut where it is very long."""
    flat = " ".join(written.split())
    if len(flat) > _LONGEST:
        flat = flat[: _LONGEST - 1] + "…"
    return f'"{flat}"'


def either(names: Iterable[str]) -> str:
    """Return `a, b or c`."""
    return _joined(tuple(names), "or")


def both(names: Iterable[str]) -> str:
    """Return `a, b and c`."""
    return _joined(tuple(names), "and")


def _joined(names: tuple[str, ...], last: str) -> str:
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"
