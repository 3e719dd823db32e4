"""Court, surface and air of a ball: by its facts, or by the numbers that were asked for."""

from tactics.engine.told import Told
from tactics.flight.constants import (
    AIR_DENSITY,
    MS_PER_KMH,
    SURFACES,
    Air,
    SurfaceName,
    air_density_kg_m3,
)
from tactics.flight.court import Format, court_for
from tactics.flight.venue import Venue

_SURFACE = {"slow": SurfaceName.CLAY, "medium": SurfaceName.HARD, "fast": SurfaceName.GRASS}


def venue_of(told: Told) -> Venue:
    """Return court and surface, in still air."""
    court = court_for(
        told.stage,
        Format(told.word("format", Format.SINGLES)),
        has_singles_sticks=told.asked.has_singles_sticks,
        service_line_m=told.asked.service_line_m,
    )
    surface = SURFACES[_SURFACE[told.word("surface", "medium")]]
    return Venue(court=court, surface=surface)


def air_of(told: Told, right: int) -> Air:
    """Return the air: density by altitude and temperature, wind by the numbers or the fact."""
    density = AIR_DENSITY.value
    if told.asked.altitude_m is not None or told.asked.temperature_c is not None:
        warmth = 20.0 if told.asked.temperature_c is None else told.asked.temperature_c
        density = air_density_kg_m3(told.asked.altitude_m or 0.0, warmth)
    along, across = told.asked.wind_along_ms, told.asked.wind_across_ms
    if along is None and across is None:
        along, across = _wind_ms(told, right)
    return Air(density_kg_m3=density, wind_along_ms=along or 0.0, wind_across_ms=across or 0.0)


def _wind_ms(told: Told, right: int) -> tuple[float, float]:
    """Return the wind along and across in m/s."""
    way = told.word("wind")
    if way in ("", "none"):
        return 0.0, 0.0
    strength = told.number("wind strength")
    if strength is None:
        strength = 15.0
        told.taken.append("wind strength not given: 15 km/h")
    speed = strength * MS_PER_KMH
    if way == "across":
        told.taken.append("wind across: taken to blow towards the forehand side")
        return 0.0, right * speed
    return (speed if way == "with" else -speed), 0.0
