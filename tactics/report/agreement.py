"""Two coaches on the same balls, and one of them against the rules, as text."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.report.layout import Section, bullet, counted, definitions, wrapped
from tactics.review.agreement import FEWEST, Agreement, Kappa

_EXPLAINED = (
    "Kappa is agreement beyond chance: 1 is always the same word, 0 no more than chance gives. "
    "With the order of the words, doubtful against unsound counts as a smaller difference than "
    "sound against unsound (linear weights). Intervals are 95 %: of the share by Wilson, of "
    "kappa from its large-sample error. Balls of one lesson are not quite independent, so the "
    "truth is wider."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """The second coach against somebody. left_out: (how many balls, why), where any were."""

    whom: str
    agreement: Agreement
    left_out: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What one of the three says of a ball, and why; word is "" where nothing was said."""

    who: str
    word: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Differing:
    """A ball on which not all say the same. row: of the chart; apart: by how many words at most."""

    row: int
    situation: str
    choice: str
    said: tuple[Said, ...]
    apart: int


def agreement_sections(
    compared: Sequence[Compared], differing: Sequence[Differing], throughout: str = ""
) -> tuple[Section, ...]:
    """Return the figures, what they mean, and the balls that are worth talking about.

    throughout: facts that all balls share, said once.
    """
    sections = [
        Section(title=f"Second coach and {each.whom}", lines=_figures(each)) for each in compared
    ]
    if any(each.agreement.is_enough for each in compared):
        sections.append(Section(title="How to read this", lines=wrapped(_EXPLAINED, "  ")))
    sections.append(Section(title=_heading(differing), lines=_balls(differing, throughout)))
    return tuple(sections)


def _figures(each: Compared) -> tuple[str, ...]:
    found = each.agreement
    notes = [
        line for count, why in each.left_out if count
        for line in wrapped(f"{counted(count, 'ball')} left out: {why}", "  ", "    ")
    ]  # fmt: skip
    if not found.is_enough:
        return (f"  not enough balls yet (n = {found.n} of {FEWEST})", *notes)
    low, high = found.interval
    pairs = [
        (
            "same word",
            f"{found.same} of {found.n}: {found.same / found.n:.0%} ({low:.0%} to {high:.0%})",
        ),
        ("kappa, with their order", _kappa(found.ordered)),
        ("kappa, words only", _kappa(found.plain)),
    ]
    return (*definitions(pairs), *notes)


def _kappa(found: Kappa | None) -> str:
    if found is None:
        return "cannot be worked out: both used one word for every ball"
    if found.interval is None:
        return f"{found.value:.2f} (no interval: nothing differed to measure it by)"
    low, high = found.interval
    return f"{found.value:.2f} ({low:.2f} to {high:.2f})"


def _heading(differing: Sequence[Differing]) -> str:
    return f"Balls they differ on: {len(differing)}"


def _balls(differing: Sequence[Differing], throughout: str) -> tuple[str, ...]:
    if not differing:
        return ("  none",)
    lines = [*(wrapped(f"The same wherever charted: {throughout}.", "  ") if throughout else ())]
    for each in sorted(differing, key=lambda ball: (-ball.apart, ball.row)):
        lines += bullet(f"row {each.row}: {each.situation} Chosen: {each.choice}.", "  ")
        lines += (line for said in each.said if said.word for line in _said(said))
    return tuple(lines)


def _said(said: Said) -> tuple[str, ...]:
    reason = f" - {said.reason}" if said.reason else ""
    return wrapped(f"{said.who}: {said.word}{reason}", "      ", "        ")
