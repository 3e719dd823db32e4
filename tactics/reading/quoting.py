"""Putting quotes around a text so that YAML gives back exactly that text."""


def double_quoted(text: str) -> str:
    """Return the text in double quotes: Low: lift it -> "Low: lift it"."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def requoted(written: str) -> str:
    """Return a text that begins with a quote, with quotes around the whole of it.

    `'don't wait'` -> `"don't wait"` and `"Good" balls` -> `'"Good" balls'`.
    """
    if len(written) > 1 and written[0] == written[-1] == "'":
        return double_quoted(written[1:-1])
    return "'" + written.replace("'", "''") + "'"
