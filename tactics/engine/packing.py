"""Derivations -> rule sets for durable-rules, cut to a size that it handles.

durable-rules sees one fact at a time, made of the number of the stage and of the literals that
hold in it, each as `"name": 1`; names mean nothing to it. What does not hold is left out.
"""

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from tactics.engine.normal_form import Chain, Derivation

MOST_CHAINS = 60
"""Its agenda of half-met chains holds 64; more chains in one rule set could overflow it."""
MOST_LITERALS = 200
"""A fact of more than 252 properties is refused."""
WARM_UP = "w"
WARM_UP_STAGE = -1
FACT_START = '{"id":"s","sid":"0","stage":'

_TAKEN = ("id", "sid", "$s", "stage", "m", WARM_UP)
_FNV_START, _FNV_PRIME = 2166136261, 16777619


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """One rule set for durable-rules.

    start: how its facts begin. always: whether a chain asks for nothing.
    targets: name of a chain -> the slot it derives. slots: whose truth is sent; surely and
    possibly: for each of them, what to send where it is no, depends or yes.
    """

    start: str
    definition: str
    targets: dict[str, int]
    slots: tuple[int, ...]
    surely: tuple[tuple[str, str, str], ...]
    possibly: tuple[tuple[str, str, str], ...]
    always: bool


def packs(derived: Iterable[Derivation]) -> tuple[Pack, ...]:
    """Return the rule sets that derive these slots, in the order in which they have to run."""
    stages: dict[int, list[tuple[Chain, int]]] = {}
    for each in derived:
        stages.setdefault(each.stage, []).extend((chain, each.target) for chain in each.chains)
    names = distinct(f"c{number}" for number in count())
    return tuple(
        _pack(stage, some, names)
        for stage, chains in sorted(stages.items())
        for some in _portions(chains)
    )


def _portions(chains: list[tuple[Chain, int]]) -> Iterator[list[tuple[Chain, int]]]:
    """Cut chains into portions that one rule set can hold."""
    portion: list[tuple[Chain, int]] = []
    literals: frozenset[int] = frozenset()
    for chain, target in chains:
        if len(portion) == MOST_CHAINS or len(literals | chain) > MOST_LITERALS:
            yield portion
            portion, literals = [], frozenset()
        portion.append((chain, target))
        literals |= chain
    if portion:
        yield portion


def _pack(stage: int, chains: Sequence[tuple[Chain, int]], names: Iterator[str]) -> Pack:
    uses = Counter(literal for chain, _ in chains for literal in chain)
    properties = {literal: next(names) for literal in sorted(uses)}
    rules, targets = {}, {}
    for chain, target in chains:
        rule = next(names)
        targets[rule] = target
        # literals that many chains ask for come first, so that durable-rules tests them once
        ordered = sorted(chain, key=lambda literal: (-uses[literal], literal))
        asked = [{"stage": stage}, *({properties[literal]: 1} for literal in ordered)]
        rules[rule] = _rule(asked)
    slots = tuple(sorted({literal // 2 for literal in uses}))
    sent = [(_sent(properties, 2 * slot), _sent(properties, 2 * slot + 1)) for slot in slots]
    return Pack(
        start=f"{FACT_START}{stage}",
        definition=json.dumps({WARM_UP: _rule([{"stage": WARM_UP_STAGE}]), **rules}),
        targets=targets,
        slots=slots,
        surely=tuple((turned, "", plain) for plain, turned in sent),
        possibly=tuple((turned, plain + turned, plain) for plain, turned in sent),
        always=any(not chain for chain, _ in chains),
    )


def _rule(asked: list[dict[str, int]]) -> dict[str, object]:
    condition = asked[0] if len(asked) == 1 else {"$and": asked}
    return {"all": [{"m": condition}]}


def _sent(properties: dict[int, str], literal: int) -> str:
    return f',"{properties[literal]}":1' if literal in properties else ""


def distinct(names: Iterable[str]) -> Iterator[str]:
    """Yield the names without those that durable-rules, which compares hashes, would mix up."""
    taken = set(map(fnv, _TAKEN))
    for name in names:
        if fnv(name) not in taken:
            taken.add(fnv(name))
            yield name


def fnv(name: str) -> int:
    """Return the 32-bit FNV-1a hash under which durable-rules knows a name."""
    value = _FNV_START
    for byte in name.encode():
        value = (value ^ byte) * _FNV_PRIME & 0xFFFFFFFF
    return value
