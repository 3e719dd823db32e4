"""The order of questions: the same rule is not asked about twice running where that can be."""

from collections import Counter
from collections.abc import Sequence

from tactics.model.scenario import Scenario


def spread(scenarios: Sequence[Scenario], after: str = "") -> tuple[Scenario, ...]:
    """Return questions in their order, moved only as far as a rule would follow itself.

    after: the id of the rule that was asked about just before.
    """
    waiting, found = list(scenarios), list[Scenario]()
    while waiting:
        counts = Counter(each.rule for each in waiting)
        crowded = {rule for rule, count in counts.items() if 2 * count > len(waiting)}
        others = [each for each in waiting if each.rule != after]
        pressing = [each for each in others if each.rule in crowded]
        chosen = next(iter((*pressing, *others)), waiting[0])
        waiting.remove(chosen)
        found.append(chosen)
        after = chosen.rule
    return tuple(found)
