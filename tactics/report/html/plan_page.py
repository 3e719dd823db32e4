"""A lesson plan as one HTML page."""

from dataclasses import dataclass
from itertools import accumulate

from tactics.report.court_picture import Picture
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.render import render
from tactics.report.plans import PlannedBlock, PlanPage, Retest


@dataclass(frozen=True, slots=True, kw_only=True)
class _Retest:
    """A ball to begin with, and its picture."""

    retest: Retest
    drawing: CourtDrawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Block:
    """A block of the lesson with its pictures. minutes: of the lesson, from and to."""

    minutes: str
    length: str
    purpose: str
    block: PlannedBlock
    drawing: CourtDrawing | None
    retests: tuple[_Retest, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """The one value the template gets."""

    plan: PlanPage
    blocks: tuple[_Block, ...]
    court: CourtDrawing


def plan_html(plan: PlanPage) -> str:
    """Return the plan as one page that stands alone."""
    begins = accumulate((block.minutes for block in plan.blocks), initial=0)
    blocks = tuple(map(_block, plan.blocks, begins))
    return render("plan", _Page(plan=plan, blocks=blocks, court=draw_court(Picture(), "")))


def _block(block: PlannedBlock, begins: int) -> _Block:
    return _Block(
        minutes=f"{begins} to {begins + block.minutes}",
        length=f"{block.minutes} min",
        purpose=_purpose(block),
        block=block,
        drawing=_drawn(block.picture, block.scene),
        retests=tuple(
            _Retest(retest=each, drawing=_drawn(each.picture, each.ball)) for each in block.retests
        ),
    )


def _purpose(block: PlannedBlock) -> str:
    """Return what a drill is for: its cue, or the rule it trains."""
    return dict(block.pairs).get("cue", block.lead if block.pairs else "")


def _drawn(picture: Picture | None, says: str) -> CourtDrawing | None:
    return None if picture is None else draw_court(picture, says)
