"""The scenarios of a quiz file: what is given, asked and offered, and the coach's own answer."""

from collections.abc import Mapping

from tactics.model.choice import Choice
from tactics.model.known import Known
from tactics.model.names import fold, slug
from tactics.model.quiz_file import WrittenOption, WrittenScenario
from tactics.model.scenario import Ask
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also, Problem
from tactics.reading import yaml_text
from tactics.reading.answers import read_values
from tactics.reading.complaint import Complaint
from tactics.reading.fields import items_of, one_text, one_word
from tactics.reading.notes import Entry, Notes
from tactics.reading.quiz_codes import QuizCode
from tactics.reading.scope import Scope, named_traits
from tactics.reading.sections import known_keys, missing_keys, says_the_same, section
from tactics.reading.values import known
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar
from tactics.source import Span

SCENARIO_KEYS = (
    "given", "question", "rule", "chosen", "options", "answer", "because", "note",
)  # fmt: skip
OPTIONS = 3
_WANTED = {"given": "{balance: moving, court depth: behind}"}
_OTHER = {
    Role.FACT: "among the options, or under chosen",
    Role.PART: 'under "given"',
}


def note(notes: Notes, code: QuizCode, span: Span, sentence: str, hint: str, *also: Also) -> None:
    """Note a problem that only quiz files have."""
    opener = notes.opener if notes.opener != span.line else 0
    notes.problems.append(
        Problem(code=code, span=span, sentence=sentence, hint=hint, also=also, opener=opener)
    )


def text_of(keys: Mapping[str, Entry], name: str, notes: Notes) -> str:
    """Return the text behind a name on one line; nothing where there is none."""
    written = one_text(keys[name], notes) if name in keys else None
    return "" if written is None else " ".join(written.text.split())


def read_scenarios(
    entry: Entry, vocabulary: Vocabulary, notes: Notes
) -> tuple[WrittenScenario, ...]:
    """Return the scenarios that can be read, in the order written."""
    inner = notes.inside(entry.key.span.line)
    found: dict[str, WrittenScenario] = {}
    for line in _once(entry, inner):
        before = notes.errors()
        whose = f"scenario {quoted(line.key.text)}"
        scenario = _scenario(line, vocabulary, inner.inside(line.key.span.line, whose))
        if notes.errors() == before:
            found[scenario.id] = scenario
    return tuple(found.values())


def _once(entry: Entry, notes: Notes) -> list[Entry]:
    """Return the scenarios, each id once; of two alike the first counts."""
    node = entry.value
    if not isinstance(node, yaml_text.Mapping):
        return list(section(node, entry.key.span, '"scenarios"', notes))
    first: dict[str, Scalar] = {}
    kept = []
    for key, value in node.pairs:
        name = slug(key.text)
        if name in first:
            note(
                notes,
                QuizCode.DUPLICATE_SCENARIO,
                key.span,
                f'"scenarios" has {quoted(key.text)} twice',
                "give one of the two another name, or take it out",
                Also(span=first[name].span, text="the first one"),
            )
        else:
            first[name] = key
            kept.append(Entry(name=name, key=key, value=value))
    return kept


def _scenario(entry: Entry, vocabulary: Vocabulary, notes: Notes) -> WrittenScenario:
    what = notes.whose
    lines = section(entry.value, entry.key.span, what, notes)
    keys = known_keys(lines, SCENARIO_KEYS, what, notes, _WANTED)
    if isinstance(entry.value, yaml_text.Mapping):
        missing_keys(keys, _WANTED, what, entry.key.span, notes)
    asked = one_word(keys["question"], list(Ask), notes) if "question" in keys else None
    options = _options(keys, vocabulary, notes)
    return WrittenScenario(
        id=slug(entry.key.text),
        given=Situation.of(_section(keys, "given", Role.FACT, vocabulary, notes)),
        ask=None if asked is None else Ask(asked),
        rule=slug(text_of(keys, "rule", notes)),
        chosen=Choice.of(_section(keys, "chosen", Role.PART, vocabulary, notes)),
        options=options,
        answer=_answer(keys["answer"], options, vocabulary, notes) if "answer" in keys else None,
        because=text_of(keys, "because", notes),
        note=text_of(keys, "note", notes),
        span=entry.key.span,
        spans=tuple((name, each.key.span) for name, each in keys.items()),
    )


def _section(
    keys: Mapping[str, Entry], name: str, role: Role, vocabulary: Vocabulary, notes: Notes
) -> dict[str, Known]:
    if name not in keys:
        return {}
    return _values(keys[name].value, keys[name].key.span, role, vocabulary, notes)


def _options(
    keys: Mapping[str, Entry], vocabulary: Vocabulary, notes: Notes
) -> tuple[WrittenOption, ...]:
    if "options" not in keys:
        return ()
    entry = keys["options"]
    nodes = items_of(entry)
    inner = notes.inside(entry.key.span.line)
    before = notes.errors()
    found = tuple(_option(node, vocabulary, inner) for node in nodes)
    if len(found) != OPTIONS:
        options = "option" if len(found) == 1 else "options"
        note(
            notes,
            QuizCode.THREE_OPTIONS,
            entry.key.span,
            f"{notes.whose} has {len(found)} {options}, and a question has three",
            "write three options, or none: then the program finds them",
        )
    elif notes.errors() == before:
        _note_alike(nodes, found, inner)
    return found


def _option(node: Node, vocabulary: Vocabulary, notes: Notes) -> WrittenOption:
    """Return an answer: parts of a choice, or a name."""
    if isinstance(node, Scalar) and node.text.strip():
        return WrittenOption(name=" ".join(node.text.split()), span=node.span)
    choice = Choice.of(_values(node, node.span, Role.PART, vocabulary, notes))
    return WrittenOption(choice=choice, span=node.span)


def _note_alike(nodes: tuple[Node, ...], found: tuple[WrittenOption, ...], notes: Notes) -> None:
    for place, node in enumerate(nodes):
        first = next((each for each in nodes[:place] if says_the_same(each, node)), None)
        if first is not None:
            note(
                notes,
                QuizCode.OPTIONS_ALIKE,
                node.span,
                f"{notes.whose} offers the same answer twice",
                "write another answer here",
                Also(span=first.span, text="the first one"),
            )
            return
    said = [(tuple(name for name, _ in each.choice.parts), bool(each.name)) for each in found]
    for each, parts in zip(found, said, strict=True):
        if parts != said[0]:
            note(
                notes,
                QuizCode.OPTIONS_DIFFER,
                each.span,
                f"the options of {notes.whose} do not all speak about the same parts",
                "give every option the same parts: only the choice should tell them apart",
                Also(span=found[0].span, text="the first option"),
            )
            return


def _answer(
    entry: Entry, options: tuple[WrittenOption, ...], vocabulary: Vocabulary, notes: Notes
) -> WrittenOption | None:
    """Return the coach's answer: its number among the options, or written out."""
    node = entry.value
    if isinstance(node, Scalar) and node.text.strip().isdecimal():
        place = int(node.text) - 1
        if 0 <= place < len(options):
            return options[place]
    else:
        before = notes.errors()
        found = _option(node, vocabulary, notes)
        if notes.errors() > before or not options or _is_among(found, options):
            return found
    hint = "write the number of the option that you mean, 1, 2 or 3"
    note(
        notes,
        QuizCode.ANSWER_NOT_OFFERED,
        node.span,
        f"the answer of {notes.whose} is not among its options",
        hint if options else "write the answer out, for example {direction: crosscourt}",
    )
    return None


def _is_among(found: WrittenOption, options: tuple[WrittenOption, ...]) -> bool:
    return any(
        found.choice == each.choice and fold(found.name) == fold(each.name) for each in options
    )


def _values(
    node: Node, span: Span, role: Role, vocabulary: Vocabulary, notes: Notes
) -> dict[str, Known]:
    scope = Scope(vocabulary=vocabulary, role=role, other=_OTHER[role])
    found: dict[str, Known] = {}
    for line, trait in named_traits(section(node, span, notes.whose, notes), scope, notes):
        value = _known(line, trait, vocabulary, notes)
        if value is not None:
            found[trait.folded] = value
    return found


def _known(entry: Entry, trait: Trait, vocabulary: Vocabulary, notes: Notes) -> Known | None:
    if isinstance(entry.value, Scalar) and not entry.is_empty and trait.kind is not Kind.TEXT:
        value = known(entry.value.text, trait, vocabulary)
        if isinstance(value, Complaint):
            notes.complain(value, entry.value)
            return None
        return value
    values = read_values(entry, trait, vocabulary, notes)
    return values if isinstance(values, Known) else None
