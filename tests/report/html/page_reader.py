"""A strict reader of the pages the program writes: every element closed, in order, named once."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

_EMPTY = frozenset({"meta", "br"})


@dataclass(slots=True)
class Element:
    """One element: its attributes, its own text and that of everything inside."""

    tag: str
    attributes: dict[str, str]
    text: str = ""


@dataclass(slots=True)
class ReadPage:
    """A page as its elements in order, and what is wrong with it."""

    elements: list[Element] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    def named(self, tag: str) -> list[Element]:
        """Return the elements of one name."""
        return [each for each in self.elements if each.tag == tag]

    def values(self, attribute: str) -> list[str]:
        """Return the values of one attribute, wherever it stands."""
        return [e.attributes[attribute] for e in self.elements if attribute in e.attributes]

    @property
    def text(self) -> str:
        """Return what can be read on the page."""
        return self.named("body")[0].text


def read_page(text: str) -> ReadPage:
    """Return a page read strictly."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    reader.page.wrong += [f"<{each.tag}> is not closed" for each in reader.open]
    return reader.page


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.page = ReadPage()
        self.open: list[Element] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        if len(set(names)) < len(names):
            self.page.wrong.append(f"<{tag}> says something twice: {names}")
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.page.elements.append(element)
        if tag not in _EMPTY:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.page.elements.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open[-1].tag != tag:
            self.page.wrong.append(f"</{tag}> closes {[each.tag for each in self.open[-2:]]}")
        else:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.text += data
