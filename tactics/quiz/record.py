"""Questions and answers as plain JSON data, and answers back from it."""

from collections.abc import Mapping
from datetime import date
from math import inf
from typing import Any

from tactics.model.choice import Choice
from tactics.model.known import (
    Absent,
    Allowed,
    Interval,
    Known,
    OneOf,
    ScatterWithin,
    Within,
)
from tactics.model.scenario import Answer, Ask, Credit, Flip, Option, Origin, Scenario
from tactics.model.situation import Situation
from tactics.model.verdict import Grade

Json = dict[str, Any]


def values_out(known: Known | Allowed) -> Json:
    """Return a set of values as data."""
    match known:
        case OneOf(words):
            return {"words": sorted(words)}
        case Within(intervals):
            return {"ranges": [_interval_out(each) for each in intervals]}
        case ScatterWithin(intervals):
            return {"scatter": [_interval_out(each) for each in intervals]}
        case _:
            return {"absent": str(known)}


def values_in(data: Json) -> Known | Allowed:
    """Return the set of values that `values_out` wrote."""
    if "words" in data:
        return OneOf(frozenset(data["words"]))
    if "ranges" in data:
        return Within(tuple(_interval_in(each) for each in data["ranges"]))
    if "scatter" in data:
        return ScatterWithin(tuple(_interval_in(each) for each in data["scatter"]))
    return Absent(data["absent"])


def _interval_out(interval: Interval) -> list[float | int | None]:
    """Return low, its side, high, its side; None for an open end."""
    (low, low_side), (high, high_side) = interval.low, interval.high
    return [None if low == -inf else low, low_side, None if high == inf else high, high_side]


def _interval_in(data: list[Any]) -> Interval:
    low, low_side, high, high_side = data
    return Interval(
        (-inf if low is None else low, low_side), (inf if high is None else high, high_side)
    )


def _facts_out(facts: tuple[tuple[str, Known], ...]) -> Json:
    return {name: values_out(known) for name, known in facts}


def _facts_in(data: Mapping[str, Json]) -> dict[str, Known]:
    read = ((name, values_in(each)) for name, each in data.items())
    return {name: known for name, known in read if not isinstance(known, ScatterWithin)}


def scenario_out(scenario: Scenario) -> Json:
    """Return a whole question, so that it can be shown again after the rules have changed."""
    return {
        "ask": str(scenario.ask),
        "situation": _facts_out(scenario.situation.facts),
        "told": list(scenario.told),
        "context": _facts_out(scenario.context.parts),
        "prompt": scenario.prompt,
        "facts": scenario.facts,
        "options": [_option_out(option) for option in scenario.options],
        "sound": scenario.sound,
        "rule": scenario.rule,
        "revision": scenario.revision,
        "because": scenario.because,
        "neighbour": scenario.neighbour,
        "cue": scenario.cue,
        "note": scenario.note,
        "aim": {part: values_out(allowed) for part, allowed in scenario.aim},
        "flip": None if scenario.flip is None else _flip_out(scenario.flip),
        "is_steady": scenario.is_steady,
        "is_conflict": scenario.is_conflict,
        "is_twin": scenario.is_twin,
        "seed": scenario.seed,
        "number": scenario.number,
    }


def scenario_in(data: Json) -> Scenario:
    """Return the question that `scenario_out` wrote."""
    return Scenario(
        ask=Ask(data["ask"]),
        situation=Situation.of(_facts_in(data["situation"])),
        told=tuple(data["told"]),
        context=Choice.of(_facts_in(data["context"])),
        prompt=data["prompt"],
        facts=data["facts"],
        options=tuple(_option_in(each) for each in data["options"]),
        sound=data["sound"],
        rule=data["rule"],
        revision=data["revision"],
        because=data["because"],
        neighbour=data["neighbour"],
        cue=data["cue"],
        note=data["note"],
        aim=tuple((part, _allowed_in(each)) for part, each in data["aim"].items()),
        flip=None if data["flip"] is None else _flip_in(data["flip"]),
        is_steady=data.get("is_steady", False),
        is_conflict=data["is_conflict"],
        is_twin=data["is_twin"],
        seed=data["seed"],
        number=data["number"],
    )


def _allowed_in(data: Json) -> Allowed:
    allowed = values_in(data)
    assert not isinstance(allowed, Absent)
    return allowed


def _option_out(option: Option) -> Json:
    return {
        "text": option.text,
        "grade": str(option.grade),
        "origin": str(option.origin),
        "choice": _facts_out(option.choice.parts),
        "term": option.term,
        "rules": list(option.rules),
    }


def _option_in(data: Json) -> Option:
    return Option(
        text=data["text"],
        grade=Grade(data["grade"]),
        origin=Origin(data["origin"]),
        choice=Choice.of(_facts_in(data["choice"])),
        term=data["term"],
        rules=tuple(data["rules"]),
    )


def _flip_out(flip: Flip) -> Json:
    return {
        "fact": flip.fact,
        "was": values_out(flip.was),
        "now": values_out(flip.now),
        "sound": flip.sound,
        "grades": [str(grade) for grade in flip.grades],
        "rule": flip.rule,
        "revision": flip.revision,
        "situation": _facts_out(flip.situation.facts),
        "facts": flip.facts,
        "because": flip.because,
        "said": flip.said,
        "cue": flip.cue,
        "answer": None if flip.answer is None else _option_out(flip.answer),
    }


def _flip_in(data: Json) -> Flip:
    was, now = values_in(data["was"]), values_in(data["now"])
    assert not isinstance(was, ScatterWithin)
    assert not isinstance(now, ScatterWithin)
    return Flip(
        fact=data["fact"],
        was=was,
        now=now,
        sound=data["sound"],
        grades=tuple(Grade(each) for each in data["grades"]),
        rule=data["rule"],
        revision=data["revision"],
        situation=Situation.of(_facts_in(data["situation"])),
        facts=data["facts"],
        because=data["because"],
        said=data["said"],
        cue=data["cue"],
        # questions stored before there were such answers have none
        answer=None if data.get("answer") is None else _option_in(data["answer"]),
    )


def answer_out(answer: Answer) -> Json:
    """Return an answer as data."""
    return {
        "day": answer.day.isoformat(),
        "ask": str(answer.ask),
        "rule": answer.rule,
        "revision": answer.revision,
        "pair": answer.pair,
        "picked": answer.picked,
        "grade": None if answer.grade is None else str(answer.grade),
        "credit": None if answer.credit is None else str(answer.credit),
        "sure": answer.sure,
        "confused_with": answer.confused_with,
        "took_ms": answer.took_ms,
        "timed_out": answer.timed_out,
        "is_twin": answer.is_twin,
        "disagrees": answer.disagrees,
    }


def answer_in(data: Mapping[str, Any]) -> Answer:
    """Return the answer that `answer_out` wrote, or that a row of the store holds."""
    return Answer(
        day=date.fromisoformat(data["day"]),
        ask=Ask(data["ask"]),
        rule=data["rule"],
        revision=data["revision"],
        pair=data["pair"],
        picked=data["picked"],
        grade=None if data["grade"] is None else Grade(data["grade"]),
        credit=None if data["credit"] is None else Credit(data["credit"]),
        sure=None if data["sure"] is None else bool(data["sure"]),
        confused_with=data["confused_with"],
        took_ms=data["took_ms"],
        timed_out=bool(data["timed_out"]),
        is_twin=bool(data["is_twin"]),
        disagrees=data["disagrees"],
    )
