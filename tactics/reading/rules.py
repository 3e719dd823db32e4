"""Rule files -> a rule set, with every problem found on the way."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from tactics.model.condition import names_in
from tactics.model.drill import Catalogue
from tactics.model.known import Allowed
from tactics.model.legality import Impossible
from tactics.model.mix_rule import MixRule
from tactics.model.names import fold, slug
from tactics.model.rule import Rule, RuleSet, Term
from tactics.model.standard import STANDARD
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also, Problem, Reading, by_place
from tactics.reading import yaml_text
from tactics.reading.answers import read_answer
from tactics.reading.beating import unknown_rule, with_known_beats
from tactics.reading.belonging import settled_rules
from tactics.reading.building import Find, Layer, pile_up
from tactics.reading.cannot_happen import read_impossible
from tactics.reading.codes import Code
from tactics.reading.fields import one_text, texts
from tactics.reading.mix_rules import read_mixes
from tactics.reading.notes import Entry, Notes
from tactics.reading.own_facts import read_own_facts
from tactics.reading.repairs import without_layout_echoes
from tactics.reading.rule_body import Surroundings, read_rule
from tactics.reading.scope import Scope, find_trait
from tactics.reading.sections import section
from tactics.reading.terms import broken_with, note_circles, read_terms
from tactics.reading.turned_off import is_off
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Scalar
from tactics.source import Source, Span


def no_other_files(_name: str) -> Source | None:
    """Find nothing: for a rule set that stands alone."""
    return None


def read_rules(
    source: Source, find: Find = no_other_files, catalogue: Catalogue | None = None
) -> Reading[RuleSet]:
    """Return the rule set of a file with everything it builds on, and every problem found.

    A rule with an error is left out; the others are read on. With a catalogue, a drill that it
    does not have is a warning.
    """
    return combine((source,), find, catalogue)


def combine(
    sources: Sequence[Source],
    find: Find = no_other_files,
    catalogue: Catalogue | None = None,
    shipped: Sequence[str] = (),
) -> Reading[RuleSet]:
    """Return several files as one rule set, each built on those before it.

    shipped: names of rule sets that come with the program, to suggest.
    """
    notes = Notes()
    pile = pile_up(sources, find, notes, shipped)
    stack = _Stack(notes=notes, catalogue=catalogue)
    for layer in pile.layers:
        stack.put(layer)
    stack.rules = with_known_beats(stack.rules, stack.left_out, stack.named, notes)
    problems = without_layout_echoes(notes.problems)
    if not pile.is_whole:
        problems = _without_echoes(problems)
    return Reading(value=stack.rule_set(), problems=by_place(problems))


_ECHOES = frozenset({Code.UNKNOWN_FACT, Code.UNKNOWN_RULE, Code.UNKNOWN_CONCERN, Code.MISSING_KEY})


def _without_echoes(problems: list[Problem]) -> list[Problem]:
    """Return the problems that cannot come from a file below that could not be read."""
    return [problem for problem in problems if problem.code not in _ECHOES]


@dataclass(slots=True)
class _Stack:
    """What the files read so far add up to."""

    notes: Notes
    catalogue: Catalogue | None
    vocabulary: Vocabulary = STANDARD
    names: list[str] = field(default_factory=list)
    author: str = ""
    writer: str = ""  # of the file at hand: rules of another file keep theirs
    applies_to: dict[str, Allowed] = field(default_factory=dict)
    precedence: tuple[str, ...] = ()
    terms: dict[str, Term] = field(default_factory=dict)
    rules: dict[str, Rule] = field(default_factory=dict)
    left_out: dict[str, Rule] = field(default_factory=dict)
    mixes: dict[str, MixRule] = field(default_factory=dict)
    impossible: tuple[Impossible, ...] = ()
    always_says: dict[str, None] = field(default_factory=dict)
    own_facts: dict[str, Span] = field(default_factory=dict)
    named: set[str] = field(default_factory=set)
    broken: set[str] = field(default_factory=set)
    span: Span | None = None

    def put(self, layer: Layer) -> None:
        """Lay one file on top."""
        keys = layer.keys
        self.span = layer.source.start()
        self._take_heading(keys)
        if "facts" in keys:
            own, broken = read_own_facts(keys["facts"], self.vocabulary, self.notes)
            self.vocabulary = self.vocabulary.with_own(own)
            self.own_facts |= _places_of(keys["facts"])
            self.broken |= broken
        if "terms" in keys:
            self._take_terms(keys["terms"])
        if "applies to" in keys:
            self._take_applies_to(keys["applies to"])
        if "precedence" in keys:
            self._take_precedence(keys["precedence"])
        if "rules" in keys:
            self._take_rules(keys["rules"])
        if "mixes" in keys:
            self._take_mixes(keys["mixes"])
        if "cannot happen" in keys:
            self.impossible += read_impossible(keys["cannot happen"], self.vocabulary, self.notes)
        if "always says" in keys:
            self._take_promise(keys["always says"])

    def _take_heading(self, keys: dict[str, Entry]) -> None:
        whose = self.notes.inside(0, "the rule set")
        written = {
            name: one_text(keys[name], whose)
            for name in ("rule set", "author", "about")
            if name in keys
        }
        name, author = written.get("rule set"), written.get("author")
        if name is not None:
            self.names.append(" ".join(name.text.split()))
            self.span = name.span
        self.writer = "" if author is None else " ".join(author.text.split())
        self.author = self.writer or self.author

    def _take_terms(self, entry: Entry) -> None:
        terms, broken = read_terms(entry, self.vocabulary, self.terms, self.notes)
        self.broken -= set(terms)
        self.terms |= terms
        in_circles = note_circles(self.terms, self.notes) - self.broken
        self.broken |= broken | in_circles

    def _take_applies_to(self, entry: Entry) -> None:
        notes = self.notes.inside(entry.key.span.line, "the rule set")
        scope = Scope(vocabulary=self.vocabulary, role=Role.FACT, other="under the rules")
        what = '"applies to" of the rule set'
        self.applies_to |= dict(read_answer(entry.value, what, entry.key.span, scope, notes))

    def _take_promise(self, entry: Entry) -> None:
        notes = self.notes.inside(entry.key.span.line, '"always says" of the rule set')
        scope = Scope(vocabulary=self.vocabulary, role=Role.PART, other='under "applies to"')
        for written in texts(entry, notes):
            named = Entry(name=fold(written.text), key=written, value=written)
            trait = find_trait(named, scope, notes)
            if trait is not None:
                self.always_says[trait.folded] = None

    def _take_precedence(self, entry: Entry) -> None:
        notes = self.notes.inside(0, "the rule set")
        written = texts(entry, notes)
        own: dict[str, Scalar] = {}
        for each in written:
            first = own.setdefault(fold(each.text), each)
            if first is not each:
                notes.add(
                    Code.DUPLICATE_CONCERN,
                    each.span,
                    f"the precedence has {quoted(each.text)} twice",
                    "keep the place that it should have",
                    also=(Also(span=first.span, text="the first one"),),
                )
        names = tuple(" ".join(each.text.split()) for each in own.values())
        self.precedence = merged_precedence(names, self.precedence)

    def _take_rules(self, entry: Entry) -> None:
        notes = self.notes.inside(entry.key.span.line)
        body = settled_rules(entry.value, notes)
        lines = section(body, entry.key.span, '"rules"', notes, Code.DUPLICATE_RULE)
        around = self._around()
        inherited = set(self.named)
        for line in lines:
            if is_off(line, slug(line.key.text) in inherited, notes):
                self._drop(line, inherited, notes)
                continue
            self.named.add(slug(line.key.text))
            self.rules.pop(slug(line.key.text), None)
            self.left_out.pop(slug(line.key.text), None)
            before = notes.errors()
            rule = read_rule(line, around, notes)
            rule = replace(rule, author=rule.author or self.writer)
            if notes.errors() > before or self._leans_on_broken(rule):
                self.left_out[rule.id] = rule
            else:
                self.rules[rule.id] = rule

    def _around(self) -> Surroundings:
        return Surroundings(
            vocabulary=self.vocabulary,
            terms=frozenset(self.terms),
            precedence=self.precedence or None,
            catalogue=self.catalogue,
        )

    def _take_mixes(self, entry: Entry) -> None:
        places = {rule.id: rule.span for rule in (*self.rules.values(), *self.left_out.values())}
        found, off = read_mixes(entry, self._around(), places, frozenset(self.mixes), self.notes)
        kept = {name: mix for name, mix in self.mixes.items() if name not in off}
        self.mixes = {
            name: mix for name, mix in (kept | found).items() if not self._uses_broken(mix)
        }

    def _uses_broken(self, mix: MixRule) -> bool:
        """Say whether a mix uses a fact or a term that could not be read."""
        broken = broken_with(frozenset(self.broken), self.terms.values())
        names = names_in((mix.of, mix.share)) | {mix.any_one, *mix.for_each}
        return bool(names & broken)

    def _drop(self, line: Entry, inherited: set[str], notes: Notes) -> None:
        rule_id = slug(line.key.text)
        self.rules.pop(rule_id, None)
        if rule_id not in inherited:
            unknown_rule(
                line.key, inherited, f"{quoted(line.key.text)} is turned off, and it", notes
            )

    def _leans_on_broken(self, rule: Rule) -> bool:
        """Say whether a rule uses a fact or a term that could not be read."""
        broken = broken_with(frozenset(self.broken), self.terms.values())
        conditions = (rule.when, *rule.unless, *((rule.choosing,) if rule.choosing else ()))
        given = {name for example in rule.examples for name, _ in example.given.facts}
        return bool((names_in(conditions) | given) & broken)

    def rule_set(self) -> RuleSet | None:
        """Return what all files add up to, or None where there is nothing to decide with."""
        if self.span is None or not self.precedence:
            return None
        broken = broken_with(frozenset(self.broken), self.terms.values())
        return RuleSet(
            name=" + ".join(self.names[-1:]),
            author=self.author,
            applies_to=tuple(self.applies_to.items()),
            precedence=self.precedence,
            terms=tuple(term for name, term in self.terms.items() if name not in broken),
            rules=tuple(self.rules.values()),
            mixes=tuple(self.mixes.values()),
            cannot_happen=self.impossible,
            always_says=tuple(self.always_says),
            own_facts=tuple(self.own_facts.items()),
            vocabulary=self.vocabulary,
            span=self.span,
        )


def _places_of(entry: Entry) -> dict[str, Span]:
    """Return the names (folded) of a section, and where each stands."""
    pairs = entry.value.pairs if isinstance(entry.value, yaml_text.Mapping) else ()
    return {fold(key.text): key.span for key, _ in pairs}


def merged_precedence(upper: tuple[str, ...], lower: tuple[str, ...]) -> tuple[str, ...]:
    """Return the upper file's concerns in its order, and those it does not name put in.

    A concern of the lower file comes right behind the one that stood before it there.
    """
    result = list(upper)
    known = {fold(name) for name in upper}
    place = 0
    for name in lower:
        if fold(name) in known:
            place = [fold(each) for each in result].index(fold(name)) + 1
        else:
            result.insert(place, name)
            place += 1
    return tuple(result)
