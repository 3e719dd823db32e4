"""The table every rule set starts from."""

from tactics.model.facts import FACTS
from tactics.model.outcomes import LABELS, OUTCOMES
from tactics.model.parts import PARTS
from tactics.model.vocabulary import Vocabulary

STANDARD = Vocabulary(traits=(*LABELS, *FACTS, *PARTS, *OUTCOMES))
"""Labels, facts, parts and outcomes, before a rule set adds facts of its own."""
