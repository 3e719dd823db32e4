"""Pages for the player, for parents and for another coach, each as one HTML file."""

from dataclasses import dataclass

from tactics.report.court_picture import Picture
from tactics.report.hand_over_page import Example, HandOverPage, SetRule
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.dots import ShownRate, shown_rate
from tactics.report.html.render import render
from tactics.report.parent_page import ParentPage
from tactics.report.player_page import PlayerPage, ShownBall
from tactics.report.worked_on import WorkedOn


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ball:
    """A ball with its picture."""

    ball: ShownBall
    drawing: CourtDrawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _PlayerView:
    """What the player's template gets."""

    player: PlayerPage
    balls: tuple[_Ball, ...]
    to_try: _Ball | None
    court: CourtDrawing


@dataclass(frozen=True, slots=True, kw_only=True)
class _SetRule:
    """A rule worked on with its balls and their pictures."""

    worked_on: WorkedOn
    examples: tuple[tuple[Example, CourtDrawing | None], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _HandOverView:
    """What the hand-over template gets."""

    sheet: HandOverPage
    situations: tuple[tuple[str, ShownRate], ...]
    working_on: tuple[_SetRule, ...]
    court: CourtDrawing


def player_html(page: PlayerPage) -> str:
    """Return the player's page as one file that stands alone."""
    view = _PlayerView(
        player=page,
        balls=tuple(_drawn(ball) for ball in page.balls),
        to_try=None if page.try_ball is None else _drawn(page.try_ball),
        court=draw_court(Picture(), ""),
    )
    return render("player", view)


def parent_html(page: ParentPage) -> str:
    """Return the parents' page as one file that stands alone."""
    return render("parent", page)


def hand_over_html(page: HandOverPage) -> str:
    """Return the hand-over page as one file that stands alone."""
    situations = tuple((line.name, shown_rate(line.rate)) for line in page.situations)
    view = _HandOverView(
        sheet=page,
        situations=situations,
        working_on=tuple(map(_set_rule, page.working_on)),
        court=draw_court(Picture(), ""),
    )
    return render("hand_over", view)


def _set_rule(each: SetRule) -> _SetRule:
    drawings = (
        None if one.picture is None else draw_court(one.picture, one.ball) for one in each.examples
    )
    return _SetRule(
        worked_on=each.worked_on, examples=tuple(zip(each.examples, drawings, strict=True))
    )


def _drawn(ball: ShownBall) -> _Ball:
    drawing = None if ball.picture is None else draw_court(ball.picture, ball.sentence)
    return _Ball(ball=ball, drawing=drawing)
