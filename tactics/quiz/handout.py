"""Papers to hand out: questions that travel in one file, and what comes back about them.

The file carries everything that is needed to read its results later, also when the rules have
changed or the coach's computer has never seen it.
"""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cached_property
from hashlib import sha256
from typing import Any, Final

from tactics.model.scenario import Answer, Quiz, Scenario, credit_of
from tactics.quiz.if_then import is_told_alone
from tactics.quiz.packing import data_of, text_of
from tactics.quiz.record import scenario_in, scenario_out
from tactics.quiz.short_code import TOOK_UP_TO_S, Mark, Result, page_words
from tactics.quiz.steps import Pick, confused_with

MOST_PAPERS, MOST_QUESTIONS = 30, 30
_PAGE_BITS: Final = 30
_PACKED = re.compile(r'<script type="text/plain" id="papers">([^<]*)</script>')


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """The questions of one day."""

    day: date
    quiz: Quiz


@dataclass(frozen=True, kw_only=True)
class Handout:
    """Papers made on one day for one player ("" for whoever gets the page).

    printed: the number of a page that was read, whatever questions are written like by now.
    """

    made: date
    nickname: str
    rules_name: str
    papers: tuple[Paper, ...]
    printed: int | None = field(default=None, compare=False)

    @cached_property
    def number(self) -> int:
        """Return what tells this page from every other one, 30 bits."""
        return _number_of(handout_out(self)) if self.printed is None else self.printed

    @property
    def questions(self) -> int:
        """Return how many questions there are on all papers."""
        return sum(len(paper.quiz.scenarios) for paper in self.papers)

    @property
    def name(self) -> str:
        """Return its number as it is printed on it."""
        return page_words(self.number)


def on_paper(quiz: Quiz) -> Quiz:
    """Return a quiz without the words that only a twin of a question needs: papers ask none."""
    return replace(quiz, scenarios=tuple(map(_without_twin, quiz.scenarios)))


def _without_twin(scenario: Scenario) -> Scenario:
    if scenario.flip is None:
        return scenario
    facts = scenario.flip.facts if is_told_alone(scenario.flip.fact) else ""
    return replace(scenario, flip=replace(scenario.flip, facts=facts, because="", cue=""))


def _number_of(data: Mapping[str, Any]) -> int:
    told = json.dumps(data, sort_keys=True, ensure_ascii=True)
    return int.from_bytes(sha256(told.encode()).digest()) >> 256 - _PAGE_BITS


def handout_out(handout: Handout) -> dict[str, Any]:
    """Return papers as plain data."""
    return {
        "made": handout.made.isoformat(),
        "nickname": handout.nickname,
        "rules": handout.rules_name,
        "papers": [
            {
                "day": paper.day.isoformat(),
                "seed": paper.quiz.seed,
                "rules_hash": paper.quiz.rules_hash,
                "generator": paper.quiz.generator,
                "source": paper.quiz.source,
                "scenarios": [scenario_out(each) for each in paper.quiz.scenarios],
            }
            for paper in handout.papers
        ],
    }


def handout_in(data: Mapping[str, Any]) -> Handout:
    """Return the papers that `handout_out` wrote; KeyError, TypeError, ValueError for others."""
    return Handout(
        printed=_printed_in(data),
        made=date.fromisoformat(data["made"]),
        nickname=str(data["nickname"]),
        rules_name=str(data["rules"]),
        papers=tuple(
            Paper(
                day=date.fromisoformat(each["day"]),
                quiz=Quiz(
                    scenarios=tuple(scenario_in(one) for one in each["scenarios"]),
                    seed=each["seed"],
                    rules_hash=each["rules_hash"],
                    generator=each["generator"],
                    source=each["source"],
                ),
            )
            for each in data["papers"]
        ),
    )


def _printed_in(data: Mapping[str, Any]) -> int:
    """Return the number of a page; pages of the first kind do not say it, it is their content's."""
    number = data["number"] if "number" in data else _number_of(data)
    if not isinstance(number, int) or number >> _PAGE_BITS:
        raise ValueError(number)
    return number


def packed(handout: Handout) -> str:
    """Return papers as text for a page: no spaces, quotes or angle brackets."""
    return text_of({"number": handout.number, **handout_out(handout)})


def unpacked(text: str) -> Handout | None:
    """Return the papers that a page (or `packed` alone) carries; None where it carries none."""
    found = _PACKED.search(text)
    try:
        return handout_in(data_of(found[1] if found else text))
    except (OSError, EOFError, ValueError, KeyError, TypeError, AttributeError, AssertionError):
        return None
    except RecursionError:  # nested deeper than questions ever are
        return None


def returned(handout: Handout, result: Result) -> tuple[Answer, ...] | None:
    """Return the answers that a result stands for; None where it is not about these papers."""
    if result.page != handout.number or result.paper >= len(handout.papers):
        return None
    scenarios = handout.papers[result.paper].quiz.scenarios
    if len(scenarios) != len(result.marks):
        return None
    day = handout.made + timedelta(days=result.day)
    both = zip(scenarios, result.marks, strict=True)
    return tuple(_answer(scenario, mark, day) for scenario, mark in both)


def _answer(scenario: Scenario, mark: Mark, day: date) -> Answer:
    option = None if mark.picked is None else scenario.options[mark.picked]
    pick = None if option is None else Pick(number=mark.picked)
    return Answer(
        day=day,
        ask=scenario.ask,
        rule=scenario.rule,
        revision=scenario.revision,
        pair=scenario.pair,
        picked=mark.picked,
        grade=None if option is None else option.grade,
        credit=None if option is None else credit_of(option.grade),
        sure=None if option is None else mark.is_sure,
        confused_with=confused_with(scenario, pick),
        took_ms=_took_ms(mark),
        is_twin=scenario.is_twin,
    )


def _took_ms(mark: Mark) -> int | None:
    """Return the upper end of the class of time; nothing for the open one."""
    return TOOK_UP_TO_S[mark.took] * 1000 if mark.took < len(TOOK_UP_TO_S) else None


def even_days(first: date, count: int, gap_days: int) -> tuple[date, ...]:
    """Return the days of papers at even gaps: as good as growing ones, and easier to plan for."""
    return tuple(first + timedelta(days=gap_days * place) for place in range(count))


def dealt(rules: Sequence[str], papers: int, length: int) -> tuple[tuple[str, ...], ...]:
    """Return the rules of each paper: every rule comes back at even gaps, on fresh situations.

    With rules for several papers they take turns; no rule is on two papers running if it can
    be helped.
    """
    if not rules:
        return ((),) * papers
    ordered = list(dict.fromkeys(rules))
    hands = [ordered[start : start + length] for start in range(0, len(ordered), length)]
    if len(hands) > 1 and len(hands[-1]) < length:
        hands[-1] += [rule for rule in ordered if rule not in hands[-1]][: length - len(hands[-1])]
    return tuple(tuple(hands[place % len(hands)]) for place in range(papers))
