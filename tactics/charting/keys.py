"""A key for each word on the screen: its first letter, or the next one nobody else has."""

from collections.abc import Iterator, Sequence
from string import ascii_lowercase


def keys_for(words: Sequence[str]) -> tuple[str, ...]:
    """Return one key a word, all different, the same for the same list on every day.

    First come first letters, then the first letters of later words of a name, then any letter
    in it: `far behind` beside `forecourt` and `behind` gets a. Letters used up, digits follow.
    """
    keys: dict[int, str] = {}
    for wish in (_first, _beginnings, _inside, _spare):
        for place, word in enumerate(words):
            if place not in keys:
                free = (key for key in wish(word) if key not in keys.values())
                found = next(free, None)
                if found is not None:
                    keys[place] = found
    return tuple(keys[place] for place in range(len(words)))


def marked(word: str, key: str) -> tuple[str, str, str]:
    """Return what stands before the key letter of a word, the letter, and what follows.

    A key that is no letter of the word stands in front of it.
    """
    folded = word.casefold()
    starts = [0, *(at + 1 for at, sign in enumerate(folded) if sign in " -")]
    at = next((at for at in starts if folded[at : at + 1] == key), folded.find(key))
    if at < 0 or not key:
        return "", key, f" {word}"
    return word[:at], word[at], word[at + 1 :]


def _first(word: str) -> Iterator[str]:
    yield from _letters(word[:1])


def _beginnings(word: str) -> Iterator[str]:
    for part in word.replace("-", " ").split()[1:]:
        yield from _letters(part[:1])


def _inside(word: str) -> Iterator[str]:
    yield from _letters(word)


def _spare(_: str) -> Iterator[str]:
    yield from "0123456789"
    yield from ascii_lowercase


def _letters(text: str) -> Iterator[str]:
    yield from (sign for sign in text.casefold() if sign in ascii_lowercase)
