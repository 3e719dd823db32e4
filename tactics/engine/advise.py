"""Situation -> what the rules say here."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from tactics.engine.advisor import Advisor
from tactics.engine.cells import Grid
from tactics.engine.combine import Standard, standards, unbeaten
from tactics.engine.derive import complete
from tactics.engine.match import DEPENDS, YES, Truth, test_leaves
from tactics.engine.open_tests import open_leaves
from tactics.model.known import NOT_SEEN, OneOf
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary


@dataclass(frozen=True, kw_only=True, eq=False)
class Advice:
    """What the rules say in a situation, before any choice is known.

    masks: fact -> possible cells. terms, rules: their truth, in the program's order; a rule
    about a kind of choice counts as applying when its situation does.
    """

    advisor: Advisor
    situation: Situation
    masks: Mapping[str, int]
    leaves: tuple[Truth, ...]
    terms: tuple[Truth, ...]
    rules: tuple[Truth, ...]

    @cached_property
    def applying(self) -> tuple[int, ...]:
        """Return the rules that surely apply whatever is chosen and are not beaten."""
        return unbeaten(self.advisor.program, self._sure)

    @cached_property
    def _sure(self) -> tuple[int, ...]:
        ready = self.advisor.program.ready
        return tuple(
            place
            for place, truth in enumerate(self.rules)
            if truth is YES and ready[place].rule.choosing is None
        )

    @cached_property
    def standards(self) -> dict[str, Standard]:
        """Return the standard of each part that the applying rules speak about."""
        return standards(self.advisor.program, self.applying)

    @cached_property
    def conditional(self) -> tuple[int, ...]:
        """Return the rules that apply here to one kind of choice only ("if you go straight")."""
        ready = self.advisor.program.ready
        return tuple(
            place
            for place, truth in enumerate(self.rules)
            if truth is YES and ready[place].rule.choosing is not None
        )

    @cached_property
    def beaten(self) -> tuple[tuple[int, int], ...]:
        """Return (rule, the applying rule that sets it aside)."""
        ready = self.advisor.program.ready
        return tuple(
            (place, beater)
            for place in self._sure
            if place not in self.applying
            for beater in self.applying
            if place in ready[beater].beats
        )

    @cached_property
    def open_rules(self) -> tuple[tuple[int, tuple[str, ...]], ...]:
        """Return (rule, facts not seen that decide whether it applies)."""
        return tuple(
            (place, self._facts_open_in(place))
            for place, truth in enumerate(self.rules)
            if truth is DEPENDS
        )

    def _facts_open_in(self, place: int) -> tuple[str, ...]:
        program, rule = self.advisor.program, self.advisor.program.ready[place]
        names = {
            program.leaves[index].name
            for node in (rule.when, rule.unless)
            for index in open_leaves(program, node, self.leaves, self.terms)
        }
        facts = self.advisor.vocabulary.facts
        return tuple(trait.folded for trait in facts if trait.folded in names)


def advise(advisor: Advisor, situation: Situation) -> Advice:
    """Return what the rules say in a situation; facts it does not list count as not seen."""
    whole = complete(situation, advisor.vocabulary)
    masks = fact_masks(advisor.program.grid, advisor.vocabulary, whole)
    leaves = test_leaves(advisor.program, masks)
    terms, rules = advisor.engine.infer(leaves)
    return Advice(
        advisor=advisor, situation=whole, masks=masks, leaves=leaves, terms=terms, rules=rules
    )


def fact_masks(grid: Grid, words: Vocabulary, situation: Situation) -> dict[str, int]:
    """Return the possible cells of every fact.

    A fact that does not exist in the game situation is not applicable; where the game
    situation itself is open, both are possible.
    """
    known = situation.as_dict()
    phase = known.get("game situation", NOT_SEEN)
    possible = phase.words if isinstance(phase, OneOf) else _every_phase(words)
    masks = {}
    for trait in words.facts:
        name = trait.folded
        axis = grid.axes[name]
        value = known.get(name, NOT_SEEN)
        mask = axis.possible(value)
        if value is NOT_SEEN and trait.absent_in:
            if possible <= trait.absent_in:
                mask = axis.absent
            elif possible & trait.absent_in:
                mask |= axis.absent
        masks[name] = mask
    return masks


def _every_phase(words: Vocabulary) -> frozenset[str]:
    return frozenset(word.name for word in words.trait("game situation").words)
