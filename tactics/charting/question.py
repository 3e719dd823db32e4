"""One question of the form: its words, their keys, and what each of them says."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.charting.keys import keys_for, marked
from tactics.charting.noted import Answer, Told
from tactics.model.known import Known, word
from tactics.model.names import fold
from tactics.model.trait import Role, Trait

OUTCOME = "outcome"
DISTURBED = "disturbed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A word to choose, the key that chooses it, and the answer it gives."""

    key: str
    word: str
    answer: Answer
    mark: str = ""

    @property
    def letters(self) -> tuple[str, str]:
        """Return the key, and the letter that is marked in the word."""
        return self.key, marked(self.word, self.key)[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question with its words.

    shown: facts as on the last ball like this one, the one asked for first; Enter takes them
    all. unseen: the answer where nobody saw it.
    """

    name: str
    text: str
    options: tuple[Option, ...]
    unseen: Answer
    shown: tuple[tuple[str, Known], ...] = ()

    @property
    def as_shown(self) -> Answer | None:
        """Return the answer that takes everything as shown, or None where nothing is."""
        if not self.shown:
            return None
        return Answer(settles=tuple(name for name, _ in self.shown), told=Told(facts=self.shown))

    def option_for(self, key: str) -> Option | None:
        """Return the option of a key, or of its letter as it stands on the screen: T for [T]."""
        return next((option for option in self.options if key in option.letters), None)

    def options_named(self, written: str) -> tuple[Option, ...]:
        """Return the options a written word may mean: that word, that key, or that beginning."""
        wanted = fold(written)
        for fits in (_is_word, _is_key, _begins):
            found = tuple(option for option in self.options if fits(option, wanted))
            if found:
                return found
        return ()


def words_question(
    trait: Trait, names: Sequence[str] = (), shown: tuple[tuple[str, Known], ...] = ()
) -> Question:
    """Return the question for a row of the vocabulary; `names`: the words that can occur here."""
    every = [each.name for each in trait.words]
    possible = frozenset(names or every)
    keys = dict(zip(every, keys_for(every), strict=True))
    return Question(
        name=trait.folded,
        text=trait.question or trait.name,
        options=tuple(
            Option(
                key=keys[each.name],
                word=each.name,
                answer=Answer(settles=(trait.folded,), told=told_by(trait, each.name)),
                mark=each.mark,
            )
            for each in trait.words
            if each.name in possible
        ),
        unseen=Answer(settles=(trait.folded,)),
        shown=shown,
    )


def told_by(trait: Trait, name: str) -> Told:
    """Return what one word of a row says."""
    if trait.role is Role.OUTCOME:
        return Told(outcome=((trait.folded, name),))
    value = trait.value_of(name)
    pairs = () if value is None else ((trait.folded, value),)
    return Told(parts=pairs) if trait.role is Role.PART else Told(facts=pairs)


def purpose_question(response: Trait, intent: Trait, possible: Sequence[str]) -> Question:
    """Return the question what the ball was meant to do; or that there was no stroke at all."""
    played = Told(parts=(("response", word("played")),))
    others = [each for each in response.words if each.name != "played"]
    every = [each.name for each in intent.words] + [each.name for each in others]
    keys = dict(zip(every, keys_for(every), strict=True))
    wanted = [
        Option(
            key=keys[each.name],
            word=each.name,
            answer=_purpose(Told.all_of((played, told_by(intent, each.name)))),
            mark=each.mark,
        )
        for each in intent.words
        if each.name in frozenset(possible)
    ]
    unplayed = [
        Option(
            key=keys[each.name],
            word=each.name,
            answer=_purpose(told_by(response, each.name), "direction"),
            mark=each.mark,
        )
        for each in others
    ]
    return Question(
        name="intent",
        text=intent.question,
        options=(*wanted, *unplayed),
        unseen=_purpose(played),
    )


def _purpose(told: Told, *more: str) -> Answer:
    return Answer(settles=("response", "intent", *more), told=told)


def outcome_question(landed: Trait, disturbed: Trait, is_disturbed: bool) -> Question:
    """Return the question what became of the ball: where it went and whether that was wanted.

    What disturbed it is asked in the same place; all but a let then ask again where it went.
    """
    pairs = [
        ("as wanted", "it did what the player meant", _landed("in", "yes")),
        ("in, not as wanted", "in, but somewhere else or not as meant", _landed("in", "no")),
        *((each.name, each.mark, _landed(each.name, "no")) for each in landed.words[1:-1]),
    ]
    if not is_disturbed:
        pairs += [
            (each.name, "then say where it went", _disturbed(each.name))
            for each in disturbed.words
            if each.name not in ("no", "let")
        ]
        pairs.append(("let", "the ball is played again", _let()))
    keys = keys_for([name for name, _, _ in pairs])
    return Question(
        name=OUTCOME,
        text="What became of the ball?",
        options=tuple(
            Option(key=key, word=name, mark=mark, answer=answer)
            for key, (name, mark, answer) in zip(keys, pairs, strict=True)
        ),
        unseen=Answer(settles=(OUTCOME,)),
    )


def _landed(where: str, as_wanted: str) -> Answer:
    said = (("landed", where), ("as intended", as_wanted))
    return Answer(settles=(OUTCOME,), told=Told(outcome=said))


def _disturbed(by: str) -> Answer:
    return Answer(settles=(DISTURBED,), told=Told(outcome=((DISTURBED, by),)))


def _let() -> Answer:
    said = ((DISTURBED, "let"), ("ending", "let"))
    return Answer(settles=(OUTCOME, DISTURBED), told=Told(outcome=said))


def _is_word(option: Option, wanted: str) -> bool:
    return fold(option.word) == wanted


def _is_key(option: Option, wanted: str) -> bool:
    return option.key == wanted


def _begins(option: Option, wanted: str) -> bool:
    return len(wanted) > 1 and fold(option.word).startswith(wanted)
