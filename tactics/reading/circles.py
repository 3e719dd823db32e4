"""Circles in "uses" relations: terms, rules that beat rules, files that build on files."""

from collections.abc import Iterable, Mapping


def circles_in(uses: Mapping[str, Iterable[str]]) -> tuple[tuple[str, ...], ...]:
    """Return one road round every circle, each beginning with its name that comes first.

    Names are taken in the order of the mapping; names it does not have use nothing.
    """
    order = list(uses)
    found: list[tuple[str, ...]] = []
    seen: set[str] = set()
    for start in order:
        if start in seen:
            continue
        road = _road_back(start, uses)
        if road:
            found.append(road)
            seen.update(road)
    return tuple(found)


def _road_back(start: str, uses: Mapping[str, Iterable[str]]) -> tuple[str, ...]:
    """Return the shortest road from a name back to itself, without its end; empty if none."""
    roads: list[tuple[str, ...]] = [(start,)]
    visited: set[str] = set()
    while roads:
        longer = []
        for road in roads:
            for name in sorted(uses.get(road[-1], ())):
                if name == start:
                    return road
                if name not in visited:
                    visited.add(name)
                    longer.append((*road, name))
        roads = longer
    return ()
