"""The table of facts and parts, and how a name finds its row."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property

from tactics.model.names import fold
from tactics.model.trait import Role, Trait, Word


@dataclass(frozen=True, kw_only=True)
class Vocabulary:
    """All rows, in the order in which pages and sheets show them."""

    traits: tuple[Trait, ...] = field(repr=False)

    @cached_property
    def _by_name(self) -> dict[str, Trait]:
        """Return every spelling of a row's name -> the row."""
        names = {fold(other): trait for trait in self.traits for other in trait.also}
        return names | {trait.folded: trait for trait in self.traits}

    def find(self, written: str) -> Trait | None:
        """Return the row a name means, in any spelling, or None."""
        return self._by_name.get(fold(written))

    def trait(self, name: str) -> Trait:
        """Return the row of a name that is known to exist; KeyError is a bug."""
        return self._by_name[fold(name)]

    def of_role(self, *roles: Role) -> tuple[Trait, ...]:
        """Return the rows of these roles."""
        return tuple(trait for trait in self.traits if trait.role in roles)

    @cached_property
    def facts(self) -> tuple[Trait, ...]:
        """Return the facts of a situation."""
        return self.of_role(Role.FACT)

    @cached_property
    def parts(self) -> tuple[Trait, ...]:
        """Return the parts of a choice."""
        return self.of_role(Role.PART)

    def words_like(self, written: str) -> Iterator[tuple[Trait, Word]]:
        """Yield every row that has this word: a hint at the fact that was meant."""
        for trait in self.traits:
            found = trait.word_named(written)
            if found is not None:
                yield trait, found

    def with_own(self, own: Iterable[Trait]) -> "Vocabulary":
        """Return a copy with a rule set's own facts added (a same-named own fact is replaced)."""
        added = {trait.folded: replace(trait, own=True) for trait in own}
        kept = tuple(trait for trait in self.traits if trait.folded not in added)
        return Vocabulary(traits=(*kept, *added.values()))
