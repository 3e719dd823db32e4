"""`tactics quiz --collect`: results of papers into the answers that are kept of a player."""

import argparse
import re
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from tactics.cli.main import Exit
from tactics.cli.quiz_copies import kept_page
from tactics.cli.quiz_players import Player, scheduler, tell
from tactics.cli.quiz_rules import usable_advisor
from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.model.scenario import Answer, Credit
from tactics.quiz.handout import Handout, Paper, returned, unpacked
from tactics.quiz.kept import Trouble
from tactics.quiz.revision import revisions
from tactics.quiz.short_code import Result, Slip, page_words, read_code
from tactics.quiz.take_in import take_in
from tactics.report.layout import counted
from tactics.report.visible import visible

_MOST_BYTES = 4_000_000
_CODE = re.compile(r"^Code: *(.+)$", re.MULTILINE)
_SEEN = re.compile(r"^Question (\d{1,2}), seen differently: *(.+)$", re.MULTILINE)
_MOST_LINE = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class _Returned:
    """A code as it came; seen: number of a question -> what the player sees differently."""

    text: str
    seen: Mapping[int, str] = field(default_factory=dict)


def collect(player: Player, options: argparse.Namespace) -> int:
    """Read every code and file given; one that cannot be read keeps none of the others back."""
    advisor = usable_advisor(load_rules(options.rules, with_drills=False))
    if advisor is None:
        return Exit.COULD_NOT_RUN
    pages, came, is_fine = _opened(options.collect)
    if not came:
        print("tactics: there is no code among these files", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    for one in came:
        is_fine &= _take(one, pages, player, options, advisor)
    return Exit.FINE if is_fine else Exit.PROBLEMS


def _opened(given: Sequence[str]) -> tuple[list[Handout], list[_Returned], bool]:
    """Return pages and codes among what was given; words that are no files are codes."""
    pages: list[Handout] = []
    came: list[_Returned] = []
    loose: list[str] = []
    is_fine = True
    for each in given:
        path = Path(each)
        if not (len(each) < 1000 and path.is_file()):
            loose.append(each)
            continue
        text = _text_of(path)
        page = unpacked(text) if "<script" in text else None
        found = list(_in_file(text))
        pages += [] if page is None else [page]
        came += found
        if page is None and not found:
            print(f"tactics: {each} is neither a quiz page nor a result", file=sys.stderr)
            is_fine = False
    whole = all(isinstance(read_code(each), Result) for each in loose)
    # a code that a chat program broke into pieces comes as several words
    came += [_Returned(text=each) for each in (loose if whole else [" ".join(loose)]) if each]
    return pages, came, is_fine


def _text_of(path: Path) -> str:
    with path.open("rb") as file:
        return file.read(_MOST_BYTES).decode("utf-8", errors="replace")


def _in_file(text: str) -> Iterator[_Returned]:
    seen = {int(number): line[:_MOST_LINE] for number, line in _SEEN.findall(text)}
    yield from (_Returned(text=code, seen=seen) for code in _CODE.findall(text))


def _take(
    one: _Returned,
    pages: Sequence[Handout],
    player: Player,
    options: argparse.Namespace,
    advisor: Advisor,
) -> bool:
    """Take one result in and say what became of it; return whether that worked."""
    result = read_code(one.text)
    if isinstance(result, Slip):
        return _refused(f"the code cannot be read: {result.sentence}", result.hint)
    name = page_words(result.page)
    handout = next((each for each in pages if each.number == result.page), None)
    handout = handout or kept_page(player.folder, name)
    if handout is None:
        return _refused(
            f"this computer knows no quiz page {name}",
            "give the page file as well: tactics quiz --collect CODE PAGE.html",
        )
    answers = returned(handout, result)
    if answers is None:
        return _refused(f"the code does not go with quiz page {name}", "ask for the code again")
    if handout.rules_name != advisor.rules.name:
        return _refused(
            f'quiz page {name} was made from the rules "{visible(handout.rules_name)}"',
            "name them with --rules",
        )
    nickname = handout.nickname or options.player or result.nickname.strip()
    if not nickname:
        return _refused(
            f"page {name} does not say whose answers these are", "add --player NICKNAME"
        )
    answers = tuple(
        replace(answer, disagrees=visible(one.seen.get(number, "")))
        for number, answer in enumerate(answers, start=1)
    )
    paper = handout.papers[result.paper]
    whose = replace(player, nickname=nickname)
    return _kept(whose, f"{name}/{result.paper + 1}", paper, answers, advisor)


def _kept(
    player: Player, name: str, paper: Paper, answers: tuple[Answer, ...], advisor: Advisor
) -> bool:
    store = player.open()
    if store is None:
        return False
    with store:
        taken = take_in(
            store,
            name,
            replace(paper.quiz, scenarios=paper.quiz.scenarios[: len(answers)]),
            answers,
            revisions=revisions(advisor.rules),
            scheduler=scheduler(),
        )
    if isinstance(taken, Trouble):
        tell(taken)
        return False
    print(f"{visible(player.nickname)}, paper {name}: {_counts(answers)}")
    for line in taken.lines({rule.id: rule.title for rule in advisor.rules.rules}):
        print(f"  {line}")
    return True


def _counts(answers: Sequence[Answer]) -> str:
    """Return what the answers earned, in counts."""
    words = {Credit.FULL: "full credit", Credit.HALF: "half", Credit.NONE: "none"}
    counts = [
        (word, sum(each.credit is credit for each in answers)) for credit, word in words.items()
    ]
    opened = sum(each.credit is None for each in answers)
    told = [f"{count} {word}" for word, count in counts if count]
    told += [f"{opened} left open"] if opened else []
    return f"{counted(len(answers), 'question')}: {', '.join(told)}"


def _refused(sentence: str, hint: str) -> bool:
    print(f"tactics: {sentence}\n  = {hint}", file=sys.stderr)
    return False
