"""The tree in DEVELOPERS.md names every module, and nothing that is not there."""

import re
from fnmatch import fnmatch
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
_NAME = re.compile(r"[\w*]+\.py\b|[\w*]+\*(?![\w.])")
_FOLDER = re.compile(r"^( *)(\w+)/(?: |$)")


def _tree() -> str:
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    return text.split("## The tree", 1)[1].split("```", 2)[1].split("tactics/\n", 1)[1]


def _named() -> list[tuple[str, str]]:
    """Return (folder, name or pattern) for each line of the tree, folders told by their indent."""
    above: dict[int, str] = {}
    named = []
    for line in _tree().splitlines():
        indent = len(line) - len(line.lstrip())
        folder = _FOLDER.match(line)
        parent = "/".join(name for depth, name in sorted(above.items()) if depth < indent)
        if folder:
            above = {depth: name for depth, name in above.items() if depth < indent}
            above[indent] = folder[2]
        else:
            named += [(parent, name) for name in _NAME.findall(line)]
    return named


def _modules() -> list[tuple[str, str]]:
    package = ROOT / "tactics"
    return [
        (path.parent.relative_to(package).as_posix().removeprefix("."), path.name)
        for path in sorted(package.rglob("*.py"))
        if path.name != "__init__.py"
    ]


@pytest.mark.house
def test_every_module_is_on_the_map() -> None:
    named = _named()

    lost = [
        f"{folder}/{name}"
        for folder, name in _modules()
        if not any(folder == place and fnmatch(name, pattern) for place, pattern in named)
    ]

    assert lost == []


@pytest.mark.house
def test_nothing_is_on_the_map_that_is_not_there() -> None:
    gone = [
        f"{folder}/{name}"
        for folder, name in _named()
        if not list((ROOT / "tactics" / folder).glob(name))
    ]

    assert gone == []
