"""What is wrong with a piece of text, before it is known where that text stands."""

from dataclasses import dataclass

from tactics.reading.codes import Code


@dataclass(frozen=True, slots=True, kw_only=True)
class Complaint:
    """A problem without a place, so that a rule file and a chart can each put it where it belongs.

    replacement: the text to put in place of the one read ("" where there is more than one way).
    """

    code: Code
    sentence: str
    hint: str = ""
    replacement: str = ""
