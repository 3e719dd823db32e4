"""One changed fact that turns an answer: found among the nearby balls, confirmed by the rules.

All answers of a draft are graded here, then a few of them in every ball around it. A change
*turns* the question where a wrong answer becomes right; it turns it *wholly* where the right
answer becomes wrong as well.
"""

from dataclasses import dataclass, field, replace
from random import Random

from tactics.engine.advise import advise
from tactics.model.choice import Choice
from tactics.model.scenario import Origin
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, KEPT, Grade
from tactics.quiz.candidates import Candidate, Values
from tactics.quiz.drafts import Draft, Drawing
from tactics.quiz.grading import Desk, Graded
from tactics.quiz.ladders import boldness
from tactics.quiz.nearby import Nearby, nearby
from tactics.quiz.shots import choice_of, wanted_in

_MOST_SOUND, _MOST_ABOUT, _MOST_WRONG = 4, 6, 9
_MOST_NEARBY, _MOST_OTHERS, _MOST_ACROSS = 9, 3, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """An answer and what the rules make of it here. charged: ids of the rules it breaks.

    choice: with what is given.
    """

    candidate: Candidate
    grade: Grade
    charged: tuple[str, ...]
    choice: Choice

    @property
    def values(self) -> Values:
        """Return its parts."""
        return self.candidate.values


@dataclass(slots=True, kw_only=True)
class Around:
    """A nearby ball and the grades of answers in it, by their numbers; None is undecided."""

    near: Nearby
    situation: Situation
    rows: dict[int, int] = field(default_factory=dict)
    grades: dict[int, Grade | None] = field(default_factory=dict)
    graded: list[Graded] = field(default_factory=list)

    def read(self, graded: Graded) -> None:
        """Take the grades of what was put on the desk last."""
        for number, row in self.rows.items():
            if number not in self.grades:
                self.grades[number] = graded.grade(row)
        self.graded = self.graded or [graded]

    def charged(self, number: int) -> tuple[str, ...]:
        """Return the rules that an answer breaks there, if it was on the desk first."""
        return self.graded[0].charged(self.rows[number])


@dataclass(slots=True, kw_only=True)
class Table:
    """A draft, the answers that hold, and the balls around it. sound, wrong: their numbers."""

    draft: Draft
    held: list[Held]
    sound: list[int]
    wrong: list[int]
    around: list[Around]

    def put(self, each: Around, number: int, desk: Desk) -> None:
        """Put one answer in one nearby ball on the desk."""
        each.rows[number] = desk.put(each.situation, self.held[number].choice)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A sound answer, the wrong one that is right after a change, and that change.

    near: None where no change turns anything.
    """

    sound: int
    right: int
    near: Around | None = None

    @property
    def is_whole(self) -> bool:
        """Say whether the sound answer is wrong after the change, and the other one sound."""
        return (
            self.near is not None
            and self.near.grades[self.sound] in BROKEN
            and self.near.grades[self.right] is Grade.SOUND
        )


def put_answers(draft: Draft, desk: Desk) -> list[int]:
    """Put every answer of a draft on the desk and return the rows."""
    given = draft.given
    return [desk.put(draft.bare, choice_of({**given, **each.values})) for each in draft.answers]


def table_of(draft: Draft, rows: list[int], graded: Graded, rng: Random) -> Table | None:
    """Return the answers that are surely sound or surely wrong, or None where they are too few."""
    held = []
    for candidate, row in zip(draft.answers, rows, strict=True):
        grade = graded.grade(row)
        if grade is None and graded.is_broken(row):
            grade = Grade.DOUBTFUL
        if grade is Grade.SOUND or grade in BROKEN:
            charged, choice = graded.charged(row), graded.choices[row]
            held.append(Held(candidate=candidate, grade=grade, charged=charged, choice=choice))
    sound = [
        n for n, each in enumerate(held)
        if each.grade is Grade.SOUND
        and draft.sense.is_modest(each.values, draft.advised)
        and draft.is_meant(each.values)
    ]  # fmt: skip
    wrong = [n for n, each in enumerate(held) if each.grade in BROKEN]
    if not sound or held[sound[0]].candidate.origin is not Origin.ADVISED or len(wrong) < 2:
        return None
    about = [n for n in wrong if draft.rule in held[n].charged]
    if not about:
        return None
    return Table(
        draft=draft,
        held=held,
        sound=_spread(sound, held),
        wrong=_some_wrong(wrong, about, held, rng),
        around=[],
    )


def _spread(sound: list[int], held: list[Held]) -> list[int]:
    """Return the advised answer and a few bolder and safer ones.

    What is advised is mostly the safest; a question whose sound answer is not keeps a player from
    learning to be safe instead of learning the rules.
    """
    first, *others = sound
    others.sort(key=lambda n: boldness(held[n].values))
    step = max(1, len(others) // (_MOST_SOUND - 1))
    return [first, *others[::-step][: _MOST_SOUND - 1]]


def _some_wrong(wrong: list[int], about: list[int], held: list[Held], rng: Random) -> list[int]:
    """Return some of the wrong answers, those that break this rule alone first.

    They are the likeliest to turn right when one fact changes.
    """
    mixed = rng.sample(about, len(about))
    mixed.sort(key=lambda n: (held[n].candidate.origin is Origin.VARIATION, len(held[n].charged)))
    # the safest and the boldest as well, so that neither habit tells the sound one
    by_boldness = sorted(about, key=lambda n: boldness(held[n].values))
    mixed = list(dict.fromkeys([by_boldness[0], by_boldness[-1], *mixed]))
    others = [n for n in wrong if n not in about]
    few = rng.sample(others, min(len(others), _MOST_WRONG - _MOST_ABOUT))
    return [*mixed[:_MOST_ABOUT], *few]


def put_around(drawing: Drawing, table: Table, desk: Desk, rng: Random) -> None:
    """Put what the answers are worth in the balls around on the desk.

    Changes of facts that the rule asks about are looked at first.
    """
    changeable = drawing.changeable(table.draft.template.ask)
    asked = drawing.sides.facts_of[table.draft.place]
    first = [fact for fact in changeable if fact in asked]
    others = [fact for fact in changeable if fact not in asked]
    ball = table.draft.ball
    found = list(nearby(drawing.play, ball, first))
    found = rng.sample(found, min(len(found), _MOST_NEARBY - _MOST_OTHERS))
    more = list(nearby(drawing.play, ball, rng.sample(others, min(len(others), _MOST_OTHERS))))
    found += rng.sample(more, min(len(more), _MOST_NEARBY - len(found)))
    beside = table.draft.beside
    if beside is not None:
        found = [beside.near, *(near for near in found if near != beside.near)]
    for near in found:
        each = Around(near=near, situation=near.situation(table.draft.bare))
        for number in (*table.sound, *table.wrong):
            table.put(each, number, desk)
        table.around.append(each)


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """What is advised in a nearby ball. here: its row in the ball itself."""

    near: Around
    number: int
    here: int


def put_across(drawing: Drawing, table: Table, desk: Desk, rng: Random) -> list[Across]:
    """Put what is right where a sound answer is broken on the desk, as another wrong answer."""
    broken = [
        each for each in table.around if any(each.grades[n] in BROKEN for n in table.sound)
    ]  # fmt: skip
    found: list[Across] = []
    for each in rng.sample(broken, min(len(broken), _MOST_ACROSS)):
        values = _right_there(drawing, table.draft, each.near)
        if values is None or any(values == held.values for held in table.held):
            continue
        candidate = Candidate(values=values, origin=Origin.NEIGHBOUR)
        choice = choice_of({**table.draft.given, **values})
        table.held.append(
            Held(candidate=candidate, grade=Grade.UNDECIDED, charged=(), choice=choice)
        )
        number = len(table.held) - 1
        here = desk.put(table.draft.bare, choice)
        table.put(each, number, desk)
        found.append(Across(near=each, number=number, here=here))
    return found


def read_across(table: Table, across: list[Across], graded: Graded) -> None:
    """Keep of these answers what is wrong here."""
    for each in across:
        each.near.read(graded)
        grade = graded.grade(each.here)
        if graded.is_broken(each.here):
            table.held[each.number] = replace(
                table.held[each.number],
                grade=grade or Grade.DOUBTFUL,
                charged=graded.charged(each.here),
            )
            table.wrong.append(each.number)


def _right_there(drawing: Drawing, draft: Draft, near: Nearby) -> Values | None:
    """Return what is advised in a nearby ball, if it can be played here too."""
    wanted = wanted_in(
        advise(drawing.advisor, near.situation(draft.situation)), near.ball, draft.sense
    )
    rng = Random(repr(sorted(draft.advised.items())))
    values = {part: wanted.value(part, rng) for part in draft.advised}
    if None in values.values() or not draft.sense.allows(values):
        return None
    both = {**draft.context, **values}
    is_playable = drawing.allows(near.ball, both) and drawing.allows(draft.ball, both)
    return values if is_playable else None


def turns_of(table: Table) -> list[Turn]:
    """Return every way to turn the question by one changed fact."""
    return [
        Turn(near=each, sound=sound, right=right)
        for each in table.around
        for right in table.wrong
        if each.grades.get(right) in KEPT
        for sound in table.sound
        if each.grades.get(sound) is not None
    ]


def no_turns(table: Table) -> list[Turn]:
    """Return what stands for a change where none turns an answer: a rule without conditions."""
    return [Turn(sound=sound, right=right) for sound in table.sound for right in table.wrong]
