"""A lesson plan as one HTML page."""

from dataclasses import dataclass
from itertools import accumulate

from tactics.model.plan import Part
from tactics.report.court_picture import Picture
from tactics.report.html.beside_table import BesideTable, beside_table
from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.render import render
from tactics.report.plans import PlannedBlock, PlanPage, Retest
from tactics.report.side_by_side import BesideWords

_PURPOSES = {
    Part.RETEST: "what has stayed since last time",
    Part.WARM_UP: "bodies warm, eyes on the ball",
    Part.POINTS: "the same choices in free play",
    Part.CLOSE: "what was seen, and what comes next",
}


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
    has_pictures: bool
    beside: BesideTable | None


def plan_html(plan: PlanPage, beside: BesideWords | None = None) -> str:
    """Return the plan as one page that stands alone; beside: quiz and court side by side."""
    begins = accumulate((block.minutes for block in plan.blocks), initial=0)
    blocks = tuple(map(_block, plan.blocks, begins))
    return render(
        "plan",
        _Page(
            plan=plan,
            blocks=blocks,
            court=draw_court(Picture(), ""),
            has_pictures=any(map(_has_picture, blocks)),
            beside=beside_table(beside),
        ),
    )


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


def _has_picture(block: _Block) -> bool:
    return any(each is not None for each in (block.drawing, *(b.drawing for b in block.retests)))


def _purpose(block: PlannedBlock) -> str:
    """Return what a block is for; a drill: its cue, or the rule it trains."""
    if block.part is Part.DRILL:
        return dict(block.pairs).get("cue", block.lead)
    return _PURPOSES[block.part]


def _drawn(picture: Picture | None, says: str) -> CourtDrawing | None:
    return None if picture is None else draw_court(picture, says)
