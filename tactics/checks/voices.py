"""Who speaks, who decides and what is left of a part, as literals over all situations at once."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from tactics.checks.clauses import ALWAYS
from tactics.checks.space import Space
from tactics.model.condition import TermTest, tests_in
from tactics.model.names import fold
from tactics.model.rule import Rule, RuleSet, Strength


@dataclass(frozen=True, slots=True, kw_only=True)
class PartVoices:
    """What becomes of one part. Dictionaries go from rule id to literal; cells are counted by
    what the rules ask for: numbers or words that no rule tells apart are one.

    asked: rule -> the cells it allows. decides: speaks with the concern that decides.
    yields: a should that no must-keeping answer can keep. narrows: decides and does not yield.
    must_allows, allows: cell -> literal that the musts, or all who decide, leave it.
    """

    part: str
    asked: Mapping[str, frozenset[int]]
    decides: Mapping[str, int]
    yields: Mapping[str, int]
    narrows: Mapping[str, int]
    must_allows: tuple[int, ...]
    allows: tuple[int, ...]
    spoken: int
    clash: int


@dataclass(kw_only=True)
class Voices:
    """A rule set on a space. terms: by folded name. fired: the rule's own conditions hold.

    forced: rules that are taken to apply (or not to) whatever their conditions say. shared: the
    voices whose terms and conditions these take over. beside: another rule set, whose answers
    are told apart as well. only_covered: outside what the set applies to, its rules are silent.
    """

    space: Space
    rules: RuleSet
    forced: Mapping[str, int] = field(default_factory=dict)
    shared: "Voices | None" = None
    beside: RuleSet | None = None
    only_covered: bool = False
    _terms: dict[str, int] = field(default_factory=dict)
    _parts: dict[str, PartVoices] = field(default_factory=dict)

    @cached_property
    def terms(self) -> Mapping[str, int]:
        """Return folded name -> the literal that the term holds."""
        if self.shared is not None:
            return self.shared.terms
        waiting = {fold(term.name): term for term in self.rules.terms}
        done: dict[str, int] = {}

        def write(name: str) -> None:
            term = waiting[name]
            for test in tests_in(term.condition):
                if isinstance(test, TermTest) and fold(test.term) not in done:
                    write(fold(test.term))
            done[name] = self.space.condition(term.condition, done)

        for name in sorted(waiting):
            if name not in done:
                write(name)
        return done

    @cached_property
    def covered(self) -> int:
        """Return the literal that the rule set applies to the situation at all."""
        return self.space.clauses.every(
            self.space.test(name, allowed) for name, allowed in self.rules.applies_to
        )

    @cached_property
    def fired(self) -> Mapping[str, int]:
        """Return rule id -> the literal that its conditions hold and no exception does."""
        if self.shared is not None:
            return {**self.shared.fired, **self.forced}
        return {rule.id: self._fired(rule) for rule in self.rules.rules}

    def _fired(self, rule: Rule) -> int:
        exceptions = (-self.space.condition(each, self.terms) for each in rule.unless)
        chosen = ALWAYS
        if rule.choosing is not None:
            chosen = self.space.condition(rule.choosing, self.terms)
        when = self.space.condition(rule.when, self.terms)
        covered = self.covered if self.only_covered else ALWAYS
        return self.space.clauses.every((covered, when, chosen, *exceptions))

    @cached_property
    def beaters(self) -> Mapping[str, tuple[str, ...]]:
        """Return rule id -> the rules that set it aside where they apply."""
        found: dict[str, list[str]] = {rule.id: [] for rule in self.rules.rules}
        for rule in self.rules.rules:
            for beaten in rule.beats:
                if beaten in found:
                    found[beaten].append(rule.id)
        return {rule_id: tuple(ids) for rule_id, ids in found.items()}

    @cached_property
    def active(self) -> Mapping[str, int]:
        """Return rule id -> the literal that it applies and no active rule beats it."""
        done: dict[str, int] = {}

        def write(rule_id: str) -> None:
            for beater in self.beaters[rule_id]:
                if beater not in done:
                    write(beater)
            beaten = (-done[beater] for beater in self.beaters[rule_id])
            done[rule_id] = self.space.clauses.every((self.fired[rule_id], *beaten))

        for rule in self.rules.rules:
            if rule.id not in done:
                write(rule.id)
        return done

    @cached_property
    def by_part(self) -> Mapping[str, tuple[Rule, ...]]:
        """Return part -> the musts and shoulds that speak about it."""
        found: dict[str, list[Rule]] = {}
        for rule in sorted(self.rules.rules, key=lambda rule: rule.id):
            if rule.strength is not Strength.MAY:
                for part, _ in rule.advice:
                    found.setdefault(part, []).append(rule)
        return {part: tuple(rules) for part, rules in found.items()}

    def part(self, part: str) -> PartVoices:
        """Return what becomes of one part, written when it is first asked for."""
        if part not in self._parts:
            self._parts[part] = self._part(part)
        return self._parts[part]

    def _part(self, part: str) -> PartVoices:
        clauses, rules = self.space.clauses, self.by_part.get(part, ())
        asked, count = self._asked(part, rules)
        decides = self._decides(rules)
        musts = [rule.id for rule in rules if rule.strength is Strength.MUST]
        shoulds = [rule.id for rule in rules if rule.strength is Strength.SHOULD]
        must_allows = tuple(
            clauses.every(-decides[each] for each in musts if cell not in asked[each])
            for cell in range(count)
        )
        can_keep = clauses.some(must_allows)
        yields = {
            each: clauses.every(
                (decides[each], can_keep, *(-must_allows[cell] for cell in sorted(asked[each])))
            )
            for each in shoulds
        }
        narrows = {each: clauses.every((decides[each], -yields[each])) for each in shoulds}
        allows = tuple(
            clauses.every(
                (
                    must_allows[cell],
                    *(-narrows[each] for each in shoulds if cell not in asked[each]),
                )
            )
            for cell in range(count)
        )
        return PartVoices(
            part=part,
            asked=asked,
            decides=decides,
            yields=yields,
            narrows=narrows,
            must_allows=must_allows,
            allows=allows,
            spoken=clauses.some(self.active[rule.id] for rule in rules),
            clash=-clauses.some(allows),
        )

    def _decides(self, rules: Iterable[Rule]) -> dict[str, int]:
        """Return rule id -> the literal that it is active and no higher concern speaks."""
        clauses = self.space.clauses
        by_rank: dict[int, list[Rule]] = {}
        for rule in rules:
            by_rank.setdefault(self.rules.rank(rule.concern), []).append(rule)
        decides: dict[str, int] = {}
        silent = ALWAYS
        for _, same in sorted(by_rank.items()):
            for rule in same:
                decides[rule.id] = clauses.every((self.active[rule.id], silent))
            silent = clauses.every((silent, *(-self.active[rule.id] for rule in same)))
        return decides

    def _asked(self, part: str, rules: Iterable[Rule]) -> tuple[dict[str, frozenset[int]], int]:
        """Return rule id -> cells, where values that no rule tells apart are one cell."""
        scale = self.space.scales[part]
        fine = {rule.id: scale.cells_of(dict(rule.advice)[part]) for rule in rules}
        others = [
            scale.cells_of(allowed)
            for rule in (self.beside.rules if self.beside else ())
            for name, allowed in rule.advice
            if name == part and rule.strength is not Strength.MAY
        ]
        told_apart = (*fine.values(), *others)
        signatures = {
            cell: tuple(cell in cells for cells in told_apart) for cell in range(scale.size)
        }
        places = {each: place for place, each in enumerate(dict.fromkeys(signatures.values()))}
        coarse = {
            rule_id: frozenset(places[signatures[cell]] for cell in cells)
            for rule_id, cells in fine.items()
        }
        return coarse, len(places)
