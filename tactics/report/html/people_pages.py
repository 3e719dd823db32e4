"""Pages for the player, for parents and for another coach, each as one HTML file."""

from dataclasses import dataclass

from tactics.report.court_picture import Picture
from tactics.report.hand_over_page import HandOverPage
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.dots import ShownRate, shown_rate
from tactics.report.html.render import render
from tactics.report.parent_page import ParentPage
from tactics.report.player_page import PlayerPage, ShownBall


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
class _HandOverView:
    """What the hand-over template gets."""

    sheet: HandOverPage
    situations: tuple[tuple[str, ShownRate], ...]


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
    return render("hand_over", _HandOverView(sheet=page, situations=situations))


def _drawn(ball: ShownBall) -> _Ball:
    drawing = None if ball.picture is None else draw_court(ball.picture, ball.sentence)
    return _Ball(ball=ball, drawing=drawing)
