"""The vocabulary as pages: one for each fact and part, and the list of all of them."""

from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.vocabulary import Vocabulary
from tactics.reading.suggest import number_range
from tactics.reading.wording import both
from tactics.report.layout import Section, definitions, wrapped
from tactics.report.words import word_with_numbers

_ROLES = {
    Role.LABEL: "Who, when and which ball",
    Role.FACT: "Facts of a situation",
    Role.PART: "Parts of a choice",
    Role.OUTCOME: "What became of the ball, and the coach's words on it",
}
_KINDS_OF_THING = {
    Role.LABEL: "a column of a chart",
    Role.FACT: "a fact of a situation",
    Role.PART: "a part of a choice",
    Role.OUTCOME: "noted after the ball; no verdict looks at it",
}

_FEW = 2


def trait_page(trait: Trait) -> tuple[Section, ...]:
    """Return the page of a fact, a part, an outcome or a label."""
    about = (
        *wrapped(f"{trait.says[:1].upper()}{trait.says[1:]}." if trait.says else "", "  "),
        *wrapped(f"By eye: {trait.by_eye}" if trait.by_eye else "", "  "),
        *wrapped(f"Asked as: {trait.question}" if trait.question else "", "  "),
        *wrapped(_remarks(trait), "  "),
    )
    return (
        Section(title=f"{trait.name}: {_KINDS_OF_THING[trait.role]}", lines=about),
        Section(title="Words", lines=word_lines(trait)),
        Section(title="Numbers", lines=_number_lines(trait)),
        Section(title="In a rule", lines=_rule_lines(trait)),
    )


def _remarks(trait: Trait) -> str:
    said = []
    if trait.also:
        said.append(f"Also written: {', '.join(trait.also)}.")
    if trait.own:
        said.append("Declared by the rule set.")
    if trait.derived:
        said.append("Worked out by the program; it can be left out.")
    if trait.unset:
        said.append(f"Left empty it means {trait.unset}.")
    if trait.quick:
        said.append("Belongs to the quick form.")
    if trait.effort:
        said.append("Not graded while something is restricted.")
    if trait.absent_in:
        said.append(f"Does not exist while {both(sorted(trait.absent_in))}.")
    return " ".join(said)


def word_lines(trait: Trait) -> tuple[str, ...]:
    """Return each word with its limits in numbers and its mark by eye."""
    return definitions([(word.name, _word_text(trait, word)) for word in trait.words])


def _word_text(trait: Trait, word: Word) -> str:
    also = f"(also: {', '.join(word.also)})" if word.also else ""
    numbers = word_with_numbers(trait, word.name)
    return "; ".join(text for text in (numbers, word.mark, also) if text)


def _number_lines(trait: Trait) -> tuple[str, ...]:
    if trait.kind is not Kind.NUMBER:
        return ()
    return wrapped(f"Also a plain number {number_range(trait)}.".replace(" .", "."), "  ")


def _rule_lines(trait: Trait) -> tuple[str, ...]:
    if trait.role not in (Role.FACT, Role.PART) or not trait.words:
        return ()
    names = [word.name for word in trait.words]
    lines = [f"  {trait.name}: {names[0]}"]
    if len(names) > _FEW:
        lines.append(f"  {trait.name}: [{names[0]}, {names[1]}]")
    lines.append(f"  {trait.name}: not {names[-1]}")
    if trait.ordered:
        lines.append(f"  {trait.name}: {names[len(names) // 2]} or higher")
    return tuple(lines)


def choices_line(trait: Trait) -> str:
    """Return the words of a fact, and whether a number will do: `deep, short, or a number ...`."""
    names = ", ".join(word.name for word in trait.words)
    if trait.kind is not Kind.NUMBER:
        return names
    number = f"a number {number_range(trait)}".rstrip()
    return f"{names}; or {number}" if names else number


def words_page(words: Vocabulary) -> tuple[Section, ...]:
    """Return the list of every name and its words."""
    return tuple(
        Section(
            title=title,
            lines=definitions([(trait.name, _in_list(trait)) for trait in words.of_role(role)]),
        )
        for role, title in _ROLES.items()
    )


def _in_list(trait: Trait) -> str:
    names = ", ".join(word.name for word in trait.words)
    unit = f" [{trait.unit.value}]" if trait.unit and trait.unit.value else ""
    return f"{names or trait.says}{unit}"


def word_page(name: str, words: Vocabulary) -> tuple[Section, ...]:
    """Return where a word is used and what it means there; nothing where nobody uses it."""
    pairs = [
        (f"{trait.name}: {word.name}", _word_text(trait, word) or trait.says)
        for trait, word in words.words_like(name)
    ]
    return (Section(title=f'The word "{name}"', lines=definitions(pairs)),) if pairs else ()
