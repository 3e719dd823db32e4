"""Terms: named situations that rules, and other terms, can use."""

from collections.abc import Iterable, Mapping

from tactics.model.condition import TermTest, tests_in
from tactics.model.rule import Term
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also
from tactics.reading.belonging import settled_terms
from tactics.reading.circles import circles_in
from tactics.reading.codes import Code
from tactics.reading.conditions import joined
from tactics.reading.fields import one_text
from tactics.reading.keywords import LOGIC
from tactics.reading.notes import Entry, Notes
from tactics.reading.scope import Scope
from tactics.reading.sections import section
from tactics.reading.wording import quoted


def read_terms(
    entry: Entry, vocabulary: Vocabulary, inherited: Mapping[str, Term], notes: Notes
) -> tuple[dict[str, Term], frozenset[str]]:
    """Return the terms of a file by folded name, and the names that could not be read."""
    inner = notes.inside(entry.key.span.line)
    body = settled_terms(entry.value, vocabulary, inner)
    lines = section(body, entry.key.span, '"terms"', inner)
    names = frozenset({*inherited, *(line.name for line in lines)})
    scope = Scope(
        vocabulary=vocabulary,
        role=Role.FACT,
        terms=names,
        other='under "if choosing"',
        keys=(*LOGIC, "means"),
    )
    terms, broken = {}, set()
    for line in lines:
        before = notes.errors()
        whose = f"term {quoted(line.key.text)}"
        term = _term(line, scope, notes.inside(line.key.span.line, whose))
        if notes.errors() > before:
            broken.add(line.name)
        terms[line.name] = term
    return terms, frozenset(broken)


def _term(entry: Entry, scope: Scope, notes: Notes) -> Term:
    _check_name(entry, scope.vocabulary, notes)
    before = notes.errors()
    lines = section(entry.value, entry.key.span, notes.whose, notes)
    means = next((one_text(line, notes) for line in lines if line.name == "means"), None)
    conditions = tuple(line for line in lines if line.name != "means")
    if not conditions and notes.errors() == before:
        notes.add(
            Code.EMPTY_VALUE,
            entry.key.span,
            f"{notes.whose} does not say when it holds",
            "add a fact and its values, for example balance: stretched",
        )
    return Term(
        name=entry.name,
        means=means.text.strip() if means else "",
        condition=joined(conditions, scope, notes),
        span=entry.key.span,
    )


def _check_name(entry: Entry, vocabulary: Vocabulary, notes: Notes) -> None:
    if vocabulary.find(entry.key.text) is not None or entry.name in (*LOGIC, "means"):
        notes.add(
            Code.NAME_TAKEN,
            entry.key.span,
            f"{quoted(entry.key.text)} has a meaning already, so a term cannot have that name",
            "give the term another name",
        )


def names_used(term: Term) -> frozenset[str]:
    """Return the names of the facts and terms a term is made of."""
    tests = tests_in(term.condition)
    return frozenset(test.term if isinstance(test, TermTest) else test.name for test in tests)


def note_circles(terms: Mapping[str, Term], notes: Notes) -> frozenset[str]:
    """Note every circle of terms once and return the names of all terms in one."""
    uses = {name: names_used(term) for name, term in terms.items()}
    found = circles_in(uses)
    for circle in found:
        _note_circle([terms[name] for name in circle], notes)
    return frozenset(name for circle in found for name in circle)


def _note_circle(circle: list[Term], notes: Notes) -> None:
    first, *others = circle
    road = " -> ".join(quoted(term.name) for term in (*circle, first))
    notes.add(
        Code.TERM_IN_A_CIRCLE,
        first.span,
        f"term {quoted(first.name)} uses itself" + (f": {road}" if others else ""),
        "write one of them with facts only",
        also=tuple(Also(span=term.span, text="part of the circle") for term in others),
    )


def broken_with(names: frozenset[str], terms: Iterable[Term]) -> frozenset[str]:
    """Return names of facts and terms, and those of all terms that use one, by whatever road."""
    all_terms = tuple(terms)
    found = set(names)
    while True:
        more = {term.name for term in all_terms if names_used(term) & found} - found
        if not more:
            return frozenset(found)
        found |= more
