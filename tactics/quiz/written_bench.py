"""What written scenarios are worked on with: the rules, the laws of play, and possible answers."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from random import Random

from tactics.engine.advise import Advice, advise
from tactics.engine.advisor import Advisor, Matcher
from tactics.model.rule import Rule
from tactics.model.situation import Situation
from tactics.quiz.candidates import Candidate, Candidates, Values
from tactics.quiz.drafts import Drawing
from tactics.quiz.generate import Maker
from tactics.quiz.naming import Naming
from tactics.quiz.play import Ball, Play
from tactics.quiz.revision import revisions
from tactics.quiz.sensible import sense_of
from tactics.quiz.shots import Wanted, wanted_in


@dataclass(frozen=True)
class Bench:
    """One rule set, ready to be asked about single balls."""

    asked: Advisor

    @cached_property
    def advisor(self) -> Advisor:
        """Return the rules with the plain matcher, which answers one ball soonest."""
        program = self.asked.program
        return Advisor(rules=self.asked.rules, program=program, engine=Matcher(program))

    @cached_property
    def play(self) -> Play:
        """Return what knows which balls can happen."""
        return Play(self.advisor)

    @cached_property
    def drawing(self) -> Drawing:
        """Return what knows which answers can be played."""
        return Drawing(self.advisor, self.play)

    @cached_property
    def naming(self) -> Naming:
        """Return what knows which rules use a named situation."""
        return Naming(self.play)

    @cached_property
    def maker(self) -> Maker:
        """Return what makes fresh scenarios."""
        return Maker(self.asked)

    @cached_property
    def revisions(self) -> dict[str, str]:
        """Return rule id -> the word for what it means."""
        return revisions(self.asked.rules)

    @cached_property
    def places(self) -> dict[str, int]:
        """Return rule id -> number, of the rules that can be asked about."""
        ready = enumerate(self.advisor.program.ready)
        return {each.rule.id: place for place, each in ready if not each.is_option_only}

    def rule(self, rule_id: str) -> Rule:
        """Return the rule of that id."""
        return self.asked.rules.rule(rule_id)

    @cached_property
    def _said(self) -> dict[Situation, Advice]:
        return {}

    def advice(self, situation: Situation) -> Advice:
        """Return what the rules say in a situation; what was asked once is remembered."""
        if situation not in self._said:
            self._said[situation] = advise(self.advisor, situation)
        return self._said[situation]

    def wanted(self, situation: Situation, ball: Ball, rule: Rule) -> Wanted:
        """Return the shot that is wanted for a ball, in a question about a rule."""
        return wanted_in(self.advice(situation), ball, sense_of(ball, rule))

    def answers(self, rule: Rule, advised: Values, ball: Ball, rng: Random) -> Sequence[Candidate]:
        """Return answers like the advised one with something changed."""
        found = Candidates(
            advisor=self.advisor,
            rules=(rule,),
            advised=advised,
            own=(),
            sense=sense_of(ball, rule),
            rng=rng,
        )
        return found.all()
