"""Units a coach may type, and the one unit that is stored for each kind of number."""

from enum import StrEnum

_DECIMALS = 6


class Unit(StrEnum):
    """The stored units; `value` is how the unit is written after a number."""

    METRE = "m"
    SECOND = "s"
    KMH = "km/h"
    PERCENT = "%"
    DEGREE = "deg"
    STEPS = "steps"
    STATURE = "of stature"
    SCATTER = "scatter"
    COUNT = ""


_FACTORS: dict[Unit, dict[str, float]] = {
    Unit.METRE: {
        "m": 1.0, "metre": 1.0, "metres": 1.0, "meter": 1.0, "meters": 1.0,
        "cm": 0.01, "ft": 0.3048, "foot": 0.3048, "feet": 0.3048,
        "in": 0.0254, "inch": 0.0254, "inches": 0.0254, "yd": 0.9144, "yard": 0.9144,
        "yards": 0.9144,
    },
    Unit.SECOND: {"s": 1.0, "sec": 1.0, "second": 1.0, "seconds": 1.0, "ms": 0.001},
    Unit.KMH: {"km/h": 1.0, "kmh": 1.0, "kph": 1.0, "mph": 1.609344, "m/s": 3.6},
    Unit.PERCENT: {"%": 1.0, "percent": 1.0, "pct": 1.0},
    Unit.DEGREE: {"deg": 1.0, "degree": 1.0, "degrees": 1.0, "°": 1.0},
    Unit.STEPS: {"steps": 1.0, "step": 1.0},
    Unit.STATURE: {"of stature": 1.0, "stature": 1.0},
    Unit.SCATTER: {"scatter": 1.0},
    Unit.COUNT: {},
}  # fmt: skip


def spellings(unit: Unit) -> tuple[str, ...]:
    """Return every way the unit (or one that converts to it) may be written."""
    return tuple(_FACTORS[unit])


def convert(number: float, written: str, unit: Unit) -> float | None:
    """Return `number` in the stored unit, or None where `written` is not a spelling of it.

    No written unit means the stored one: 3 ft -> 0.9144 m, 1.2 -> 1.2 m.
    """
    if not written:
        return round(number, _DECIMALS)
    factor = _FACTORS[unit].get(written.casefold())
    return None if factor is None else round(number * factor, _DECIMALS)


def unit_of(written: str) -> Unit | None:
    """Return the stored unit that a spelling belongs to, or None where nobody uses it."""
    folded = written.casefold()
    return next((unit for unit, table in _FACTORS.items() if folded in table), None)
