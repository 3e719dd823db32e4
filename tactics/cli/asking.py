"""Facts asked one by one, the one that matters most first."""

from collections.abc import Callable

from tactics.cli.arguments import Asked, arguments_source, read_arguments
from tactics.cli.terminal import read_line
from tactics.engine.advise import Advice, advise
from tactics.engine.advisor import Advisor
from tactics.engine.coverage import as_covered
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN
from tactics.model.situation import Situation
from tactics.model.trait import Role, Trait
from tactics.report.advice import open_by_fact
from tactics.report.layout import wrapped
from tactics.report.word_pages import choices_line

_NO_CHOICE = Choice()
_FIRST = "game situation"
_ENOUGH = frozenset({"stop", "enough", "done", "."})
_HOW = (
    "Answer in words or numbers. Enter: not seen. "
    '"?": what the words mean. "stop": no more questions.'
)


def ask_facts(advisor: Advisor, start: Asked, say: Callable[[str], None] = print) -> Situation:
    """Return the situation after asking for every fact that can still change what is said.

    End of input (Ctrl-D) ends the questions.
    """
    situation, passed = start[0], set[str]()
    say("\n".join(wrapped(_HOW)))
    while True:
        advice = advise(advisor, as_covered(advisor.rules, situation))
        trait = next_question(advice, passed, start[1])
        answer = None if trait is None else _ask(trait, advisor, say, len(passed) + 1)
        if trait is None or answer is None:
            say("")
            return situation
        passed.add(trait.folded)
        situation = situation.with_facts(answer.as_dict())


def next_question(advice: Advice, passed: set[str], choice: Choice = _NO_CHOICE) -> Trait | None:
    """Return the fact to ask for next, or None when nothing is left to ask.

    First the phase of the point; then, with a choice, what decides its verdict; without one,
    the fact on which most undecided rules hang.
    """
    words = advice.advisor.vocabulary
    if advice.situation.get(_FIRST) is NOT_SEEN and _FIRST not in passed:
        return words.trait(_FIRST)
    if choice.parts:
        waiting: tuple[str, ...] = judge(choice, advice).missing
    else:
        waiting = tuple(fact for fact, _ in open_by_fact(advice))
    traits = (words.trait(fact) for fact in waiting if fact not in passed)
    return next((trait for trait in traits if _can_be_asked(trait)), None)


def _can_be_asked(trait: Trait) -> bool:
    return trait.role is Role.FACT and not trait.derived


def _ask(
    trait: Trait, advisor: Advisor, say: Callable[[str], None], number: int
) -> Situation | None:
    say(f"\n{number}. {trait.question or trait.name}")
    say("\n".join(wrapped(f"({choices_line(trait)})", "   ")))
    return _answer(trait, advisor, say)


def _answer(trait: Trait, advisor: Advisor, say: Callable[[str], None]) -> Situation | None:
    """Return what was answered (perhaps nothing), or None to stop."""
    while True:
        try:
            written = read_line("   > ").strip()
        except EOFError:
            return None
        if written.casefold() in _ENOUGH:
            return None
        if not written:
            return Situation()
        if written != "?":
            source = arguments_source([f"{trait.name}={written}"])
            read = read_arguments(source, advisor.vocabulary)
            if read.value is not None and not read.problems:
                return read.value[0]
            for problem in read.problems:
                say("\n".join(wrapped(f"{problem.sentence}; {problem.hint}", "   ")))
            continue
        say("\n".join(meaning(trait)))


def meaning(trait: Trait) -> tuple[str, ...]:
    """Return what a fact means and how each of its words is judged by eye."""
    from tactics.report.word_pages import word_lines

    by_eye = wrapped(trait.by_eye, "   ") if trait.by_eye else ()
    return (*wrapped(f"{trait.name}: {trait.says}", "   "), *by_eye, *word_lines(trait))
