"""The court a question is about. Small courts are drawn like the full one, and told as they are."""

from collections.abc import Mapping
from dataclasses import dataclass

from tactics.model.known import word
from tactics.model.situation import Situation
from tactics.report.court_picture import BASELINE_M, DOUBLES_HALF_M, SINGLES_HALF_M

NET_M = 0.914
"""Height of the net at its strap (ITF Rules of Tennis)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """length, width: of this court, as shares of the full one that is drawn.

    half_m: from the middle of the drawn court to the sideline that counts. net_m: as it stands.
    """

    length: float = 1.0
    width: float = 1.0
    half_m: float = SINGLES_HALF_M
    net_m: float = NET_M

    def along_m(self, drawn_m: float) -> float:
        """Return metres along this court for metres along the drawn one."""
        return drawn_m * self.length

    def aside_m(self, drawn_m: float) -> float:
        """Return metres across this court for metres across the drawn one."""
        return drawn_m * self.width

    def inside_m(self, x_m: float) -> float:
        """Return how far a drawn place is inside the sideline, in metres of this court."""
        return self.aside_m(self.half_m - abs(x_m))

    def drawn_inside_m(self, inside_m: float) -> float:
        """Return a margin to the sideline as it is drawn: from the sideline for singles."""
        return inside_m / self.width - (self.half_m - SINGLES_HALF_M)


FULL = Ground()

_HALF_LENGTHS_M: Mapping[str, float] = {"red": 10.97 / 2, "orange": 18.29 / 2}
_HALF_WIDTHS_M: Mapping[str, tuple[float, float]] = {
    "red": (5.49 / 2, 6.10 / 2),
    "orange": (6.40 / 2, 8.23 / 2),
}
"""Of the small courts, for singles and for doubles."""
_SMALL_NET_M = 0.80


def ground_of(situation: Situation) -> Ground:
    """Return the court of a situation; the full one where no stage is known."""
    is_doubles = situation.get("format") == word("doubles")
    half_m = DOUBLES_HALF_M if is_doubles else SINGLES_HALF_M
    stage = next((each for each in _HALF_LENGTHS_M if situation.get("stage") == word(each)), None)
    if stage is None:
        return Ground(half_m=half_m)
    return Ground(
        length=_HALF_LENGTHS_M[stage] / BASELINE_M,
        width=_HALF_WIDTHS_M[stage][is_doubles] / half_m,
        half_m=half_m,
        net_m=_SMALL_NET_M,
    )
