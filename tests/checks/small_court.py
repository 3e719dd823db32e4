"""A small vocabulary: every situation and choice of a drawn rule set can be gone through."""

from hypothesis import strategies as st

from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.units import Unit
from tactics.model.vocabulary import Vocabulary

_SHIFT = Trait(
    name="own shift", role=Role.FACT, kind=Kind.WORDS, own=True, ordinary="none",
    words=(Word(name="none"), Word(name="wide"), Word(name="back")),
)  # fmt: skip
_GAP = Trait(
    name="own gap", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE, low=0.0, high=12.0, own=True
)
_KEPT = (
    "game situation", "balance", "serve side", "own hand", "opponent hand", "hands",
    "response", "direction", "height over net",
)  # fmt: skip

SMALL = Vocabulary(traits=(*(STANDARD.trait(name) for name in _KEPT), _SHIFT, _GAP))
SMALL_COURT = st.just(SMALL)
