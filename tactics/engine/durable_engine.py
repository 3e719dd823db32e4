"""Inference by durable-rules. The only module that imports it.

Only a small part of durable-rules is used, the part that holds what it promises: one fact at a
time, one pattern a rule, conjunctions of equal small integers, its C module without background
threads. See `packing` for what it is sent.
"""

from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import cache
from operator import getitem, itemgetter
from threading import Lock
from types import ModuleType
from weakref import finalize

from tactics.engine.match import DEPENDS, NO, YES, Truth, infer
from tactics.engine.normal_form import derivations
from tactics.engine.packing import FACT_START, MOST_CHAINS, WARM_UP, WARM_UP_STAGE, Pack, packs
from tactics.engine.program import Program

DISTRIBUTION = "durable-rules"
MOST_FAULTS = 3
"""After so many faults of durable-rules an advisor stays with the plain matcher."""

_SID = "0"
_FACT_ID = '{"id":"s","sid":"0"}'
_HANDLED, _NOT_MATCHED = 0, 1


class WorkingMemoryError(Exception):
    """durable-rules answered something that its working memory should never hold."""


@cache
def load() -> ModuleType | None:
    """Return the C module of durable-rules, or None where it is absent or will not import."""
    try:
        import durable_rules_engine
    except ImportError:
        return None
    module: ModuleType = durable_rules_engine
    return module


def engine_name() -> str:
    """Return which engine runs the rules here, for `tactics --version`."""
    from importlib.metadata import PackageNotFoundError, version  # loads a mail library

    try:
        found = version(DISTRIBUTION)
    except PackageNotFoundError:
        return f"plain matcher ({DISTRIBUTION} is not installed here)"
    if load() is None:
        return f"plain matcher ({DISTRIBUTION} {found} does not load here)"
    return f"{DISTRIBUTION} {found}"


class _OpenPack:
    """A rule set inside durable-rules."""

    def __init__(self, pack: Pack, module: ModuleType) -> None:
        self._pack = pack
        self._pick = _picker(pack.slots)
        self._assert_fact = module.assert_fact
        self._start_action = module.start_action_for_state
        self._next_action = module.complete_and_start_action
        self._retract_fact = module.retract_fact
        self._get_facts = module.get_facts
        self.handle: int = module.create_ruleset("tactics", pack.definition)
        # a state in which no rule ever ran must not be deleted, hence a rule that runs once now
        if self._fired(f"{FACT_START}{WARM_UP_STAGE}}}") != [WARM_UP]:
            raise WorkingMemoryError("the first rule did not run")

    def derive(self, truths: list[Truth]) -> None:
        """Enter the truth of every slot that these rules derive from the others."""
        pack, known = self._pack, self._pick(truths)
        for chain in self._matching(pack.surely, known):
            truths[pack.targets[chain]] = YES
        if DEPENDS in bytes(known):
            for chain in self._matching(pack.possibly, known):
                slot = pack.targets[chain]
                truths[slot] = truths[slot] or DEPENDS

    def _matching(
        self, fragments: Sequence[Sequence[str]], known: Sequence[Truth]
    ) -> Sequence[str]:
        """Return the chains that match when these literals are sent."""
        literals = "".join(map(getitem, fragments, known))
        if not literals and not self._pack.always:
            return ()
        return self._fired(f"{self._pack.start}{literals}}}")

    def _fired(self, fact: str) -> Sequence[str]:
        """Assert one fact, return the chains that match it, and retract it."""
        code, state = self._assert_fact(self.handle, fact)
        if code == _NOT_MATCHED:
            return ()
        started = self._start_action(self.handle, state)
        if code != _HANDLED or started is None:
            raise WorkingMemoryError(f"a fact was answered with {code}")
        found, message = [], started[1]
        while message:  # {"chain":{"m":{...}}}
            found.append(message[2 : message.index('"', 2)])
            if len(found) > MOST_CHAINS:
                raise WorkingMemoryError("a chain matched one fact twice")
            message = self._next_action(self.handle, state)
        self._retract_fact(self.handle, _FACT_ID)
        if self._get_facts(self.handle, _SID) != "[]":
            raise WorkingMemoryError("a fact was left behind")
        return found


def _picker(slots: tuple[int, ...]) -> Callable[[list[Truth]], Sequence[Truth]]:
    if len(slots) > 1:
        return itemgetter(*slots)
    return lambda truths: [truths[slot] for slot in slots]


class _WorkingMemory:
    """A program inside durable-rules; `close` gives everything back."""

    def __init__(self, program: Program, module: ModuleType) -> None:
        derived = derivations(program)
        terms = len(program.leaves)
        rules = terms + len(program.terms)
        self._terms = slice(terms, rules)
        self._rules = slice(rules, rules + len(program.ready))
        self._underived = [NO] * len(derived)
        handles: list[int] = []
        # registered before anything is opened, so that nothing is kept if opening fails
        self._closing = finalize(self, _close, module, handles)
        self._closing.atexit = False
        self._packs: list[_OpenPack] = []
        for pack in packs(derived):
            self._packs.append(_OpenPack(pack, module))
            handles.append(self._packs[-1].handle)

    def close(self) -> None:
        """Give back what the C module holds; the object cannot be used any more."""
        self._closing()

    def infer(self, leaves: Sequence[Truth]) -> tuple[tuple[Truth, ...], tuple[Truth, ...]]:
        """Return the truth of every term and of every rule, in the program's order."""
        truths = [*leaves, *self._underived]
        for pack in self._packs:
            pack.derive(truths)
        return tuple(truths[self._terms]), tuple(truths[self._rules])


def _close(module: ModuleType, handles: list[int]) -> None:
    while handles:
        handle = handles.pop()
        with suppress(Exception):
            module.delete_state(handle, _SID)  # first the state: otherwise it is never freed
            module.delete_ruleset(handle)


class DurableEngine:
    """Derives terms and rules with durable-rules, and with the plain matcher where that fails.

    Nothing is loaded before the first question. Safe to share between threads.
    """

    def __init__(self, program: Program) -> None:
        self.program = program
        self.faults = 0
        self._lock = Lock()
        self._memory: _WorkingMemory | None = None

    @property
    def name(self) -> str:
        """Return which engine answers here."""
        return DISTRIBUTION if self._module() else "matcher"

    def infer(self, leaves: Sequence[Truth]) -> tuple[tuple[Truth, ...], tuple[Truth, ...]]:
        """Return the truth of every term and of every rule, in the program's order."""
        with self._lock:
            module = self._module()
            if module is not None:
                try:
                    return self._opened(module).infer(leaves)
                except Exception:  # whatever goes wrong in there must not cost the answer
                    self.faults += 1
                    self._shut()
                except BaseException:
                    self._shut()  # interrupted half-way: what is left in memory is unknown
                    raise
        return infer(self.program, leaves)

    def close(self) -> None:
        """Give back the memory of durable-rules; the next question opens it again."""
        with self._lock:
            self._shut()

    def _module(self) -> ModuleType | None:
        return load() if self.faults < MOST_FAULTS else None

    def _opened(self, module: ModuleType) -> _WorkingMemory:
        if self._memory is None:
            self._memory = _WorkingMemory(self.program, module)
        return self._memory

    def _shut(self) -> None:
        memory, self._memory = self._memory, None
        if memory is not None:
            memory.close()
