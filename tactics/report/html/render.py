"""Templates -> pages. The only module that knows jinja2; everything is worked out before."""

from base64 import b64encode
from functools import cache
from hashlib import sha256

from jinja2 import Environment, PackageLoader, StrictUndefined

from tactics.report.visible import shape

_JOINERS = frozenset("\u200c\u200d")


def render(template: str, page: object) -> str:
    """Return a page: the template of that name with one frozen value, as `page`."""
    return _environment().get_template(f"{template}.html.j2").render(page=page)


@cache
def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("tactics.report", "html"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_shown,
    )
    made.filters["digest"] = _digest
    return made


def _digest(text: str) -> str:
    """Return what a page's policy names a style or script by, so that no other one can run."""
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


def _shown(value: object) -> object:
    """Return a plain text with hidden characters spelt out; markup made by a template stays.

    The joiners that emoji and many scripts are written with stay too: on a page they do no harm.
    """
    if type(value) is not str or value.isprintable():
        return value
    return "".join(map(_readable, value))


def _readable(character: str) -> str:
    return character if character in _JOINERS else shape(character)
