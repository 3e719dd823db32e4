"""What can be done beside answering: the words of the menu and what each of them does."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from tactics.charting.entry import Entry, Page, Step, undone
from tactics.charting.keys import keys_for
from tactics.charting.noted import CAUSE, MARK
from tactics.model.known import OneOf, word

_TURNED = {"with": "against", "against": "with"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A word of the menu, its key, and what it is for."""

    key: str
    word: str
    says: str


def menu_of(entry: Entry) -> tuple[Item, ...]:
    """Return the menu; keys never depend on what happens to be possible now."""
    keys = keys_for(list(_ACTIONS))
    return tuple(
        Item(key=key, word=name, says=_SAYS[name])
        for key, name in zip(keys, _ACTIONS, strict=True)
        if name not in _NEEDS_A_BALL or entry.balls
    )


def chosen(entry: Entry, name: str) -> Step:
    """Return the state after a word of the menu."""
    return _ACTIONS[name](replace(entry, page=Page.ASKING, notice=""))


def _undo(entry: Entry) -> Step:
    return Step(entry=undone(entry))


def _correct(entry: Entry) -> Step:
    return Step(entry=replace(entry, page=Page.PICKING, text=""))


def _on_last_ball(field: str) -> Callable[[Entry], Step]:
    def opened(entry: Entry) -> Step:
        place = len(entry.balls) - 1
        page = Page.TEXT if field == "note" else Page.FIELD
        text = entry.balls[place].note if field == "note" else ""
        return Step(
            entry=replace(
                entry, page=page, picked=place, field=field, text=text, back_to=Page.ASKING
            )
        )

    return opened


def _other_player(entry: Entry) -> Step:
    return Step(entry=replace(entry, page=Page.TEXT, field="player", text=""))


def _same_point(entry: Entry) -> Step:
    return Step(entry=replace(entry, is_same_point=not entry.is_same_point))


def _ends(entry: Entry) -> Step:
    standing = dict(entry.standing)
    wind = standing.get("wind")
    name = next(iter(wind.words)) if isinstance(wind, OneOf) else ""
    if name not in _TURNED:
        return Step(entry=replace(entry, notice="The wind is neither with nor against the player."))
    standing["wind"] = word(_TURNED[name])
    notice = f"Ends changed: the wind is {_TURNED[name]} the player now."
    return Step(entry=replace(entry, standing=tuple(standing.items()), notice=notice))


def _today(entry: Entry) -> Step:
    return Step(entry=replace(entry, page=Page.TODAY))


def _grades(entry: Entry) -> Step:
    shows = not entry.sitting.shows_grades
    notice = "Grades are shown after each ball." if shows else "Grades are kept for the end."
    return Step(
        entry=replace(entry, sitting=replace(entry.sitting, shows_grades=shows), notice=notice)
    )


def _pause(entry: Entry) -> Step:
    return Step(entry=replace(entry, page=Page.PAUSED))


def _stop(entry: Entry) -> Step:
    return Step(entry=entry, goes_on=False)


_ACTIONS: dict[str, Callable[[Entry], Step]] = {
    "undo": _undo,
    "correct": _correct,
    "mark": _on_last_ball(MARK),
    "why": _on_last_ball(CAUSE),
    "disturbed": _on_last_ball("disturbed"),
    "note": _on_last_ball("note"),
    "same point": _same_point,
    "ends changed": _ends,
    "other player": _other_player,
    "today": _today,
    "grades": _grades,
    "pause": _pause,
    "finish": _stop,
}
_SAYS = {
    "undo": "one answer back; before a ball, the last one again",
    "correct": "change an earlier ball",
    "mark": "your own grade of the last choice",
    "why": "what was behind the last ball",
    "disturbed": "net cord, bad bounce, gust or let on the last ball",
    "note": "a few words on the last ball",
    "same point": "the next ball belongs to the point of the last one",
    "ends changed": "turn the wind round",
    "other player": "chart another player; Enter alone stays with this one",
    "today": "player and day: hands, level, wind, pain",
    "grades": "show grades after each ball, or keep them for the end",
    "pause": "cover the screen; everything is on disk",
    "finish": "stop charting",
}
_NEEDS_A_BALL = frozenset({"correct", "mark", "why", "disturbed", "note", "same point"})
