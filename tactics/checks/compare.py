"""Two rule sets -> every region where the advice changes, and the charted balls that flip."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from tactics.checks.clauses import NEVER, is_in
from tactics.checks.comparison import Change, Comparison, Flip, Said
from tactics.checks.difference import part_differs
from tactics.checks.replay import Replay, in_words_of, replay
from tactics.checks.solve import NotSettledError
from tactics.checks.space import Space, space_for
from tactics.checks.voices import Voices
from tactics.checks.witness import Common, Witness, common, ordinary_cells, tell
from tactics.engine.advisor import Advisor
from tactics.engine.audit import audit
from tactics.model.ball import Ball, Chart
from tactics.model.rule import Answer, Rule, RuleSet, Strength
from tactics.model.verdict import Verdict

MOST_CHANGES = 200
"""Beyond this many, two rule sets have little to do with one another and the list stops."""

Key = tuple[tuple[str, ...], tuple[str, ...]]
"""Rules that stop to decide a part, and rules that start to."""


def compare_rules(old: Advisor, new: Advisor, charts: Sequence[Chart] = ()) -> Comparison:
    """Return where the advice changes, complete and short, and which charted grades flip."""
    pair = _Pair(old, new)
    changes = tuple(pair.changes())
    flips = tuple(_flips(old, new, charts))
    before = {rule.id: rule for rule in old.rules.rules}
    after = {rule.id: rule for rule in new.rules.rules}
    return Comparison(
        old=old.rules.name,
        new=new.rules.name,
        words=pair.space.words,
        added=tuple(each for each in after if each not in before),
        removed=tuple(each for each in before if each not in after),
        reworded=tuple(each for each in before if each in after and before[each] != after[each]),
        changes=tuple(each for each in changes if each is not None),
        is_complete=pair.is_complete,
        unconfirmed=sum(each is None for each in changes),
        flips=flips,
        balls=sum(len(chart.balls) for chart in charts),
    )


@dataclass(eq=False)
class _Pair:
    """Both rule sets on one space."""

    old: Advisor
    new: Advisor
    is_complete: bool = True

    @cached_property
    def space(self) -> Space:
        return space_for((self.old.rules, self.new.rules))

    @cached_property
    def voices(self) -> tuple[Voices, Voices]:
        def of(rules: RuleSet, beside: RuleSet) -> Voices:
            return Voices(space=self.space, rules=rules, beside=beside, only_covered=True)

        return of(self.old.rules, self.new.rules), of(self.new.rules, self.old.rules)

    def changes(self) -> Iterator[Change | None]:
        """Yield every change, None for one that the evaluator does not confirm."""
        try:
            yield from self._settled()
        except NotSettledError:
            self.is_complete = False

    def _settled(self) -> Iterator[Change | None]:
        found: dict[Key, dict[str, int]] = {}
        for part in sorted({part for voices in self.voices for part in voices.by_part}):
            for key, literal in self._keys(part):
                found.setdefault(key, {})[part] = literal
        for key, goals in sorted(found.items(), key=lambda each: each[0]):
            yield self._change(key, goals)
        for rule_id, literal in self._options():
            yield self._option_change(rule_id, literal)

    def _keys(self, part: str) -> Iterator[tuple[Key, int]]:
        """Yield who stops and who starts to decide a part, with the literal of all such cases."""
        clauses = self.space.clauses
        old, new = self.voices
        differs = clauses.some(part_differs(self.space, old, new, part))
        before = self._stops(part, old, new)
        after = self._stops(part, new, old)
        known: list[int] = []
        while clauses.can_hold((*self.space.legal, differs, *known)):
            if len(known) >= MOST_CHANGES:
                self.is_complete = False
                return
            found = clauses.found()
            chosen = [
                (lit if is_in(found, lit) else -lit) for lit in (*before.values(), *after.values())
            ]
            case = clauses.every((differs, *chosen))
            yield (_holding(before, found), _holding(after, found)), case
            known.append(-case)

    def _stops(self, part: str, voices: Voices, other: Voices) -> dict[str, int]:
        """Return rule -> the literal that it decides a part here and does not do the same there."""
        here, there = _deciding(voices, part), _deciding(other, part)
        asks = {rule.id: _asks(rule, part) for rule in voices.by_part.get(part, ())}
        others = {rule.id: _asks(rule, part) for rule in other.by_part.get(part, ())}
        return {
            rule_id: self.space.clauses.every(
                (literal, -there[rule_id]) if others.get(rule_id) == asks[rule_id] else (literal,)
            )
            for rule_id, literal in here.items()
        }

    def _change(self, key: Key, goals: Mapping[str, int]) -> Change | None:
        goal = self.space.clauses.some(goals.values())
        witness = self._witness(goal)
        if witness is None:
            return None
        before, after = replay(self.old, witness), replay(self.new, witness)
        parts = tuple(trait.folded for trait in self.space.words.parts if trait.folded in goals)
        said = [(_said(before, part), _said(after, part)) for part in parts]
        if not (before.is_sure and after.is_sure and any(one != other for one, other in said)):
            return None
        stops, starts = key
        return Change(
            before=stops,
            after=starts,
            parts=parts,
            common=self._common(goal),
            witness=witness,
            said_before=tuple(one for one, _ in said),
            said_after=tuple(other for _, other in said),
        )

    def _witness(self, goal: int) -> Witness | None:
        cells = ordinary_cells(self.space, (goal,))
        return None if cells is None else tell(self.space, cells, (goal,))

    def _common(self, goal: int) -> Common:
        old, new = self.voices
        covered = self.space.clauses.some((old.covered, new.covered))
        return common(self.space, (goal,), (covered,), {**old.terms, **new.terms})

    def _options(self) -> Iterator[tuple[str, int]]:
        """Yield rules whose options are open in one of the sets only, with where."""
        old, new = self.voices
        before, after = _options_of(self.old.rules), _options_of(self.new.rules)
        for rule_id in sorted(before.keys() | after.keys()):
            here = old.active[rule_id] if rule_id in before else NEVER
            there = new.active[rule_id] if rule_id in after else NEVER
            literal = self.space.clauses.differs(here, there)
            if before.get(rule_id) != after.get(rule_id):
                literal = self.space.clauses.some((here, there))
            if self.space.clauses.can_hold((*self.space.legal, literal)):
                yield rule_id, literal

    def _option_change(self, rule_id: str, literal: int) -> Change | None:
        witness = self._witness(literal)
        if witness is None:
            return None
        before, after = replay(self.old, witness), replay(self.new, witness)
        was = rule_id in before.active and rule_id in _options_of(self.old.rules)
        is_ = rule_id in after.active and rule_id in _options_of(self.new.rules)
        if not (before.is_sure and after.is_sure and (was or is_)):
            return None
        return Change(
            before=(),
            after=(),
            opened=(rule_id,) if is_ else (),
            closed=(rule_id,) if was else (),
            common=self._common(literal),
            witness=witness,
        )


def _deciding(voices: Voices, part: str) -> dict[str, int]:
    """Return rule -> the literal that it decides a part and does not yield."""
    found = voices.part(part)
    return {each: found.narrows.get(each, literal) for each, literal in found.decides.items()}


def _asks(rule: Rule, part: str) -> tuple[Strength, object]:
    return rule.strength, dict(rule.advice)[part]


def _holding(literals: Mapping[str, int], found: Sequence[int]) -> tuple[str, ...]:
    return tuple(sorted(each for each, literal in literals.items() if is_in(found, literal)))


def _options_of(rules: RuleSet) -> dict[str, tuple[Answer, ...]]:
    """Return rule -> its whole other answers, for the rules that have any."""
    options = {
        rule.id: (*((rule.advice,) if rule.strength is Strength.MAY else ()), *rule.alternatives)
        for rule in rules.rules
    }
    return {rule_id: answers for rule_id, answers in options.items() if answers}


def _said(seen: Replay, part: str) -> Said:
    standard = seen.standards.get(part)
    if standard is None:
        return Said(part=part, allowed=None, must_allowed=None, is_spoken=False)
    axis = seen.advisor.program.grid.axes[part]
    return Said(
        part=part,
        allowed=axis.allowed_of(standard.allowed) if standard.allowed else None,
        must_allowed=axis.allowed_of(standard.must_allowed) if standard.must_allowed else None,
        clashing=tuple(sorted(seen.ids(standard.clashing))),
    )


def _flips(old: Advisor, new: Advisor, charts: Sequence[Chart]) -> Iterator[Flip]:
    before, after = _verdicts(old, charts), _verdicts(new, charts)
    balls = (ball for chart in charts for ball in chart.balls)
    for ball, was, is_ in zip(balls, before, after, strict=True):
        if (was and was.grade) != (is_ and is_.grade):
            yield Flip(ball=ball, before=was, after=is_)


def _verdicts(advisor: Advisor, charts: Sequence[Chart]) -> list[Verdict | None]:
    """Return the verdict on every ball, None where the rule set does not cover it."""
    told = [
        replace(chart, balls=tuple(_told_to(advisor, ball) for ball in chart.balls))
        for chart in charts
    ]
    found = {id(judged.ball): judged.verdict for judged in audit(told, advisor).judged}
    return [found.get(id(ball)) for chart in told for ball in chart.balls]


def _told_to(advisor: Advisor, ball: Ball) -> Ball:
    return replace(ball, situation=in_words_of(advisor, ball.situation))
