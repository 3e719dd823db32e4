"""A key on a page -> the next state."""

from collections.abc import Callable
from dataclasses import replace
from unicodedata import category

from tactics.charting.entry import (
    Entry,
    Page,
    Remove,
    Replace,
    Step,
    for_player,
    replaced,
    undone,
    with_answer,
)
from tactics.charting.fields import NOTE, TAKE_OUT, fields_of, fields_of_day, with_word
from tactics.charting.keys import keys_for
from tactics.charting.menu import chosen, menu_of
from tactics.charting.noted import CAUSE, GAME_SITUATION, MARK
from tactics.charting.question import Question, words_question
from tactics.model.ball import Ball
from tactics.model.names import fold
from tactics.model.trait import Trait

NOT_SEEN_KEYS = frozenset({"-", " "})
_LEAVING = frozenset({"enter", "back", "tab"})
_LONGEST = 300
_PASTE = "paste:"


def press(entry: Entry, key: str) -> Step:
    """Return what a key leads to on the page in front of the coach."""
    return _PAGES[entry.page](entry, key)


def phases_of(entry: Entry) -> tuple[tuple[str, str], ...]:
    """Return (capital letter, game situation): another one than on the last ball."""
    names = [each.name for each in entry.sitting.form.trait(GAME_SITUATION).words]
    return tuple((key.upper(), name) for key, name in zip(keys_for(names), names, strict=True))


def field_question(entry: Entry) -> Question:
    """Return the words for the field of a ball, or of the day, that is to be changed."""
    return words_question(entry.sitting.form.trait(entry.field))


def open_facts(entry: Entry) -> tuple[str, ...]:
    """Return the facts and parts that would decide the ball that is to be changed."""
    ball = entry.balls[entry.picked]
    return entry.sitting.form.decider.waiting(ball.situation, ball.choice)


def _asking(entry: Entry, key: str) -> Step:
    question = entry.question
    if key in ("back", "tab", "?") or question is None:
        return _aside(entry, key)
    if key == "enter":
        if question.as_shown is None:
            return _said(entry, "Nothing is filled in here: a letter, or - where nobody saw it.")
        return with_answer(entry, question.as_shown)
    if key in NOT_SEEN_KEYS:
        return with_answer(entry, question.unseen)
    option = question.option_for(key)
    if option is not None:
        return with_answer(entry, option.answer)
    phase = dict(phases_of(entry)).get(key)
    return _said(entry, _no_key(key)) if phase is None else _with_phase(entry, phase)


def _aside(entry: Entry, key: str) -> Step:
    if key == "back":
        return Step(entry=undone(entry))
    if key == "?":
        return Step(entry=replace(entry, page=Page.WORDS, notice=""))
    return Step(entry=replace(entry, page=Page.MENU, notice=""))


def _with_phase(entry: Entry, name: str) -> Step:
    if not entry.is_at_start:
        return _said(entry, "The game situation is chosen before anything else on a ball.")
    value = entry.sitting.form.trait(GAME_SITUATION).value_of(name)
    return Step(entry=entry if value is None else replace(entry, phase=value, notice=""))


def _menu(entry: Entry, key: str) -> Step:
    item = next((each for each in menu_of(entry) if each.key == key), None)
    if item is not None:
        return chosen(entry, item.word)
    return _left(entry, key, Page.ASKING)


def _words(entry: Entry, _: str) -> Step:
    return _to(entry, Page.ASKING)


def _paused(entry: Entry, _: str) -> Step:
    return _to(entry, Page.ASKING)


def _picking(entry: Entry, key: str) -> Step:
    if key.isdecimal():
        return Step(entry=replace(entry, text=(entry.text + key)[:6], notice=""))
    if key == "back" and entry.text:
        return Step(entry=replace(entry, text=entry.text[:-1]))
    if key != "enter" or not entry.text:
        return _left(entry, key, Page.ASKING)
    place = int(entry.text) - 1
    if not 0 <= place < len(entry.balls):
        return _said(replace(entry, text=""), f"There are balls 1 to {len(entry.balls)}.")
    return Step(entry=replace(entry, page=Page.BALL, picked=place, text="", notice=""))


def _ball(entry: Entry, key: str) -> Step:
    words = entry.sitting.form.decider.advisor.vocabulary
    fields = fields_of(entry.balls[entry.picked], words, open_facts(entry))
    field = next((each for each in fields if each.key == key), None)
    if field is None:
        return _left(entry, key, Page.ASKING)
    if field.name == TAKE_OUT:
        return _taken_out(entry)
    page = Page.TEXT if field.name == NOTE else Page.FIELD
    text = entry.balls[entry.picked].note if field.name == NOTE else ""
    return Step(
        entry=replace(
            entry, page=page, field=fold(field.name), text=text, back_to=Page.BALL, notice=""
        )
    )


def _taken_out(entry: Entry) -> Step:
    place = entry.picked
    balls = (*entry.balls[:place], *entry.balls[place + 1 :])
    histories = tuple(
        (at - (at > place), answers) for at, answers in entry.histories if at != place
    )
    after = replace(
        entry, balls=balls, histories=histories, page=Page.ASKING, picked=-1, answers=(),
        taken_up=None, notice=f"Ball {place + 1} was taken out.",
        began_with=entry.began_with - (place < entry.began_with),
    )  # fmt: skip
    return Step(entry=after, writes=(Remove(place=place),))


def _today(entry: Entry, key: str) -> Step:
    words = entry.sitting.form.decider.advisor.vocabulary
    fields = fields_of_day(dict(entry.standing), words)
    field = next((each for each in fields if each.key == key), None)
    if field is None:
        return _left(entry, key, Page.ASKING)
    return Step(
        entry=replace(
            entry, page=Page.FIELD, field=fold(field.name), picked=-1, back_to=Page.TODAY, notice=""
        )
    )


def _field(entry: Entry, key: str) -> Step:
    trait = entry.sitting.form.trait(entry.field)
    option = field_question(entry).option_for(key)
    if option is None and key not in NOT_SEEN_KEYS:
        return _left(entry, key, entry.back_to)
    name = "" if option is None else option.word
    if entry.picked < 0:
        return Step(entry=_with_standing(entry, trait, name))
    keeps = entry.field in (MARK, CAUSE)
    return _rewritten(entry, lambda ball: with_word(ball, trait, name), keeps)


def _with_standing(entry: Entry, trait: Trait, name: str) -> Entry:
    standing = dict(entry.standing)
    standing.pop(trait.folded, None)
    value = trait.value_of(name) if name else None
    if value is not None:
        standing[trait.folded] = value
    return replace(entry, standing=tuple(standing.items()), page=entry.back_to, notice="")


def _text(entry: Entry, key: str) -> Step:
    if key == "enter":
        text = " ".join(entry.text.split())
        if entry.field == "player":
            return Step(entry=for_player(entry, text or entry.player))
        return _rewritten(replace(entry, text=""), lambda ball: replace(ball, note=text), True)
    if key == "back":
        return Step(entry=replace(entry, text=entry.text[:-1]))
    more = key.removeprefix(_PASTE) if key.startswith(_PASTE) else key if len(key) == 1 else ""
    shown = "".join(" " if category(sign) == "Cc" else sign for sign in more)
    return Step(entry=replace(entry, text=(entry.text + shown)[:_LONGEST]))


def _rewritten(entry: Entry, change: Callable[[Ball], Ball], keeps_answers: bool) -> Step:
    ball = change(entry.balls[entry.picked])
    place = entry.picked
    histories = tuple(each for each in entry.histories if keeps_answers or each[0] != place)
    after = replace(
        entry,
        balls=replaced(entry.balls, place, ball),
        histories=histories,
        page=entry.back_to,
        notice=f"Ball {place + 1} is changed.",
    )
    return Step(entry=after, writes=(Replace(place=place, ball=ball),))


def _to(entry: Entry, page: Page) -> Step:
    return Step(entry=replace(entry, page=page, text="", notice=""))


def _left(entry: Entry, key: str, page: Page) -> Step:
    """Return to a page with Enter or a key like it; a slip of the finger closes nothing."""
    return _to(entry, page) if key in _LEAVING else _said(entry, _no_key_there(key))


def _said(entry: Entry, notice: str) -> Step:
    return Step(entry=replace(entry, notice=notice))


def _no_key(key: str) -> str:
    return f'"{key}" is no key here. ? explains the words, Tab opens the menu.'


def _no_key_there(key: str) -> str:
    return f'"{key}" is no key here. Enter goes back.'


_PAGES: dict[Page, Callable[[Entry, str], Step]] = {
    Page.ASKING: _asking,
    Page.MENU: _menu,
    Page.WORDS: _words,
    Page.PICKING: _picking,
    Page.BALL: _ball,
    Page.FIELD: _field,
    Page.TEXT: _text,
    Page.TODAY: _today,
    Page.PAUSED: _paused,
}
