"""The situations a chart meets most, each with what the rules ask for there already."""

from collections.abc import Iterator, Sequence

from tactics.engine.advise import Advice, advise
from tactics.engine.compile import compile_rules
from tactics.engine.coverage import as_covered
from tactics.model.ball import Ball
from tactics.model.rule import RuleSet
from tactics.report.advice import part_words
from tactics.report.aims import aims
from tactics.report.sentences import situation_sentence
from tactics.report.starter import Skeleton
from tactics.review.often_met import often_met


def skeletons_of(balls: Sequence[Ball], rules: RuleSet, most: int) -> tuple[Skeleton, ...]:
    """Return the situations met most as rules to be finished, at most so many."""
    advisor = compile_rules(rules, engine="matcher")
    found = []
    for met in often_met(balls, rules.vocabulary, most):
        situation = met.situation(rules.vocabulary)
        advice = advise(advisor, as_covered(rules, situation))
        found.append(
            Skeleton(
                facts=met.facts,
                count=met.count,
                of=len(balls),
                says=situation_sentence(situation, rules.vocabulary),
                asked=tuple(_asked(advice)),
            )
        )
    return tuple(found)


def _asked(advice: Advice) -> Iterator[tuple[str, str]]:
    """Yield each part about which the rules surely ask something, and what."""
    words, aimed = advice.advisor.vocabulary, aims(advice)
    for trait in words.parts:
        if trait.folded in advice.standards:
            yield trait.name, part_words(advice, trait.folded, aimed, words)
