"""Practice games and drills, tagged with the rules they train."""

from dataclasses import dataclass, field

from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """One drill: how to lay it out, how it is scored, how to make it harder and easier.

    minutes: usual length. strains: what a player with a restriction must not do in it
    (words such as `serve` or `smash`).
    """

    id: str
    title: str
    minutes: int
    trains: tuple[str, ...]
    set_up: str
    scoring: str
    harder: str
    easier: str
    safety: str = ""
    strains: tuple[str, ...] = ()
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """Drills by id."""

    drills: tuple[Drill, ...] = ()

    def find(self, drill_id: str) -> Drill | None:
        """Return the drill of that id, or None."""
        return next((drill for drill in self.drills if drill.id == drill_id), None)
