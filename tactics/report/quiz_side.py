"""The ball seen from the side: how high it is met against the net, in its own stretched scale."""

from collections.abc import Mapping, Sequence

from tactics.model.known import Within
from tactics.model.scenario import Scenario
from tactics.model.vocabulary import Vocabulary
from tactics.report.court_picture import middle_of
from tactics.report.quiz_ground import NET_M, ground_of
from tactics.report.quiz_sheet import Ink, Rows, Sheet

CONTACT, HEIGHT = "contact height", "height over net"
_STATURE_M, _SHOULDERS, _HEADROOM_M, _LEAST_M = 1.7, 0.82, 0.1, 1.9
_BODY_COLUMN, _BALL_COLUMN, _NET_FROM_RIGHT = 1, 3, 6
_CAPTION = "Seen from the side"
_LEVEL_M, _STEP_CM = 0.05, 5


def side_rows(
    scenario: Scenario,
    columns: int,
    rows: int,
    words: Vocabulary,
    marks: Mapping[str, str],
) -> Rows:
    """Return player, ball and net from the side; nothing where the ball has no height yet.

    Heights on offer are marked over the net by the number of their option.
    """
    contact_m = contact_of(scenario, words)
    if contact_m is None:
        return ()
    offered = heights_on_offer(scenario, words)
    net_m = ground_of(scenario.situation).net_m
    top_m = max(_LEAST_M, contact_m, *(net_m + each for _, each in offered)) + _HEADROOM_M
    sheet = Sheet(columns, rows)
    ground = rows - 1
    air = ground - 1  # the caption has the first row

    def row(height_m: float) -> int:
        return air - min(int(height_m / top_m * air), air - 1)

    net = columns - _NET_FROM_RIGHT
    sheet.write(0, 0, _CAPTION, Ink.QUIET)
    sheet.write(0, ground, marks["ground"] * columns, Ink.LINE)
    for column in range(_BALL_COLUMN, net, 2):
        sheet.put(column, row(net_m), marks["tape"], Ink.NET)
    stature_m = middle_of(scenario.situation.get("stature"), words.trait("stature")) or _STATURE_M
    for each in range(row(_SHOULDERS * stature_m), ground):
        sheet.put(_BODY_COLUMN, each, marks["body"], Ink.PLAYER)
    sheet.put(_BODY_COLUMN, row(stature_m), marks["player"], Ink.PLAYER)
    for each in range(row(net_m), ground):
        sheet.put(net, each, marks["net"], Ink.NET)
    sheet.write(net + 2, ground - 1, "net", Ink.QUIET)
    sheet.put(_BALL_COLUMN, row(contact_m), marks["ball"], Ink.WAY_IN)
    sheet.write(_BALL_COLUMN + 1, row(contact_m), f" {side_words(contact_m, net_m)} ", Ink.STRONG)
    for place, height_m in offered:
        sheet.put(net + 2 * place, row(net_m + height_m), str(place + 1), Ink.AIM)
    return sheet.drawn()


def contact_of(scenario: Scenario, words: Vocabulary) -> float | None:
    """Return how high the ball is met, in metres over the ground, or None."""
    return middle_of(scenario.situation.get(CONTACT), words.trait(CONTACT))


def heights_on_offer(scenario: Scenario, words: Vocabulary) -> Sequence[tuple[int, float]]:
    """Return (place of the option, metres over the net) where options differ in it."""
    known = [option.choice.get(HEIGHT) for option in scenario.options]
    if len(set(known)) < 2 or not all(isinstance(each, Within) for each in known):
        return ()
    heights = [middle_of(each, words.trait(HEIGHT)) for each in known]
    return [(place, each) for place, each in enumerate(heights) if each is not None]


def side_words(contact_m: float, net_m: float = NET_M) -> str:
    """Return a height against the net in few words: `ball 35 cm over the net`."""
    difference_m = contact_m - net_m
    if abs(difference_m) < _LEVEL_M:
        return "ball level with the net"
    return f"ball {_rounded_cm(difference_m)} cm {'over' if difference_m > 0 else 'below'} the net"


def height_words(contact_m: float, net_m: float = NET_M) -> str:
    """Return a height against the net as a phrase: `about 35 cm over the net`."""
    difference_m = contact_m - net_m
    if abs(difference_m) < _LEVEL_M:
        return "level with the net"
    way = "over" if difference_m > 0 else "below"
    return f"about {_rounded_cm(difference_m)} cm {way} the top of the net"


def _rounded_cm(metres: float) -> int:
    return max(_STEP_CM, _STEP_CM * round(abs(metres) * 100 / _STEP_CM))
