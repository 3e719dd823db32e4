"""Exact expected texts, kept in files beside their cases."""

from difflib import unified_diff
from pathlib import Path

CASES = Path(__file__).parent / "cases"


class Golden:
    """Compares a text with the file that holds it, or writes the file anew when asked to."""

    def __init__(self, update: bool) -> None:
        self.update = update

    def __call__(self, name: str, text: str) -> None:
        """Hold `text` against tests/cases/NAME; the difference is the message."""
        path = CASES / name
        if self.update:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8", newline="")
            return
        expected = read_exactly(path) if path.exists() else ""
        assert text == expected, difference(name, expected, text)


def read_exactly(path: Path) -> str:
    """Return the text of a file with its line ends as they stand."""
    with path.open(encoding="utf-8", newline="") as file:
        return file.read()


def difference(name: str, expected: str, text: str) -> str:
    """Return what has changed, and how to accept it."""
    lines = unified_diff(
        expected.splitlines(), text.splitlines(), f"{name} as kept", f"{name} now", lineterm=""
    )
    return "\n".join([*lines, "run pytest with --update to keep the new text"])
