"""`some-rule: off`: a rule of a set below that is dropped."""

from tactics.model.names import fold
from tactics.reading.codes import Code
from tactics.reading.notes import Entry, Notes
from tactics.reading.suggest import meant_yes_or_no, near
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Scalar

_OTHER_WORDS = ("off", "none", "nothing", "drop", "dropped", "delete", "deleted", "remove",
                "removed", "disabled", "out", "-", "~", "null")  # fmt: skip


def is_off(line: Entry, inherited: bool, notes: Notes) -> bool:
    """Say whether a line drops a rule; another word for `off` is a problem, and counts as it.

    inherited: a set below has a rule of that id.
    """
    if not isinstance(line.value, Scalar):
        return False
    said = fold(line.value.text)
    if said == "off":
        return True
    if not said and inherited:
        notes.add(
            Code.EMPTY_VALUE,
            line.key.span,
            f"nothing stands behind {quoted(line.key.text)}",
            f"write {line.key.text}: off to drop the rule, or set its lines in below",
        )
        return True
    if not (meant_yes_or_no(said) == "no" or said in _OTHER_WORDS or near(said, ("off",))):
        return False
    notes.add(
        Code.UNKNOWN_WORD,
        line.value,
        f"{quoted(line.key.text)} is {quoted(line.value.text)}, and a rule is dropped with off",
        f"write {line.key.text}: off",
        replacement="off",
    )
    return True
