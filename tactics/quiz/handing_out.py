"""Papers -> the page that a player gets: the same pictures and words as in the terminal."""

from dataclasses import replace
from datetime import UTC, date, datetime

from tactics.model.scenario import Ask, Scenario
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.feedback import Feedback, feedback
from tactics.quiz.handout import Handout, Paper, packed
from tactics.quiz.steps import Pick, Saved, Skip, Sure, next_step, start
from tactics.report.court_picture import Spot, picture_of
from tactics.report.html.quiz_court import quiz_court, quiz_side
from tactics.report.html.quiz_page import (
    AnswerLine,
    PaperView,
    QuestionView,
    QuizPage,
    in_a_row,
)
from tactics.report.quiz_ground import ground_of
from tactics.report.quiz_places import drawn_on, picture_words, shown_picture, target_words
from tactics.report.quiz_side import contact_of, heights_on_offer, side_words

_ANY_TIME = datetime(2000, 1, 1, 12, tzinfo=UTC)


def page_of(handout: Handout, words: Vocabulary) -> QuizPage:
    """Return the page of a handout, ready for its template."""
    return QuizPage(
        number=handout.name,
        page=handout.number,
        made=handout.made.isoformat(),
        nickname=handout.nickname,
        rules_name=handout.rules_name,
        headings=_headings(handout),
        papers=tuple(
            PaperView(
                number=number,
                day=day_words(paper.day),
                iso=paper.day.isoformat(),
                questions=tuple(
                    _question(f"{number}-{place}", paper, scenario, words)
                    for place, scenario in enumerate(paper.quiz.scenarios, start=1)
                ),
            )
            for number, paper in enumerate(handout.papers, start=1)
        ),
        packed=packed(handout),
    )


def _headings(handout: Handout) -> tuple[tuple[str, str], ...]:
    """Return what is said to each answer, by its grade word; "" for one left open."""
    found: dict[str, str] = {}
    for paper in handout.papers:
        for scenario in paper.quiz.scenarios:
            for picked in (None, *range(len(scenario.options))):
                told = _told(paper, scenario, picked)
                word = "" if picked is None else told.lines[picked][0]
                found.setdefault(word, told.heading)
    return tuple(sorted(found.items()))


def day_words(day: date) -> str:
    """Return a day as people write it: 5 March 2026."""
    return f"{day.day} {day:%B} {day.year}"


def _question(place: str, paper: Paper, scenario: Scenario, words: Vocabulary) -> QuestionView:
    told = _told(paper, scenario, scenario.sound)
    contact_m = contact_of(scenario, words)
    net_m = ground_of(scenario.situation).net_m
    asked = shown_picture(scenario, is_answered=False, words=words)
    answered = shown_picture(scenario, is_answered=True, words=words)
    return QuestionView(
        place=place,
        heading=str(scenario.ask),
        facts=scenario.facts,
        prompt=scenario.prompt,
        options=tuple(
            AnswerLine(
                text=text,
                grade=grade,
                is_best=is_best,
            )
            for grade, text, _, is_best in told.lines
        ),
        court=quiz_court(asked, answered, _aims(scenario, words)),
        side=quiz_side(contact_m, heights_on_offer(scenario, words), net_m),
        on_court=in_a_row(picture_words(scenario, asked, words, with_height=False)),
        height="" if contact_m is None else side_words(contact_m, net_m),
        target=target_words(scenario, answered),
        why=told.why,
        flip=told.flip,
        keep=told.then or (f"In short: {told.cue}" if told.cue else ""),
        note=scenario.note,
    )


def _aims(scenario: Scenario, words: Vocabulary) -> tuple[Spot | None, ...]:
    """Return where the options of a question about a place lie."""
    if scenario.ask is not Ask.AIM:
        return ()
    aims = (dict(option.aim) for option in scenario.options)
    where = scenario.situation
    return tuple(picture_of(where, drawn_on(aim, where, words), words).target for aim in aims)


def _told(paper: Paper, scenario: Scenario, picked: int | None) -> Feedback:
    """Return what the terminal says to this answer."""
    state = start(replace(paper.quiz, scenarios=(scenario,)), _ANY_TIME)
    events = (Skip(),) if picked is None else (Pick(number=picked), Sure(is_sure=True))
    for event in (*events, Saved()):
        state = next_step(state, event, _ANY_TIME)
    told = feedback(state)
    assert told is not None
    return told
