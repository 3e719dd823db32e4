"""Folding of names: case, space, hyphen and underscore do not matter."""

import re
from functools import lru_cache

_JOINERS = re.compile(r"[\s_\-]+")


@lru_cache(maxsize=8192)
def fold(name: str) -> str:
    """Return the form in which names are compared: `Contact_Height` becomes `contact height`."""
    return _JOINERS.sub(" ", name.strip()).casefold()


def slug(name: str) -> str:
    """Return the kebab-case form used in ids: `Contact height` becomes `contact-height`."""
    return fold(name).replace(" ", "-")
