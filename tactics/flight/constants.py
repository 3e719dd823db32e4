"""Every physical number of the flight model in one place, with unit, range and source.

A `Constant` is the record; the dataclasses below are what the functions take. SI throughout.
"""

from dataclasses import dataclass
from enum import StrEnum

GRAVITY_MS2 = 9.81
MS_PER_KMH = 1 / 3.6
RAD_S_PER_RPM = 0.10471975511965977


@dataclass(frozen=True, slots=True, kw_only=True)
class Constant:
    """A number with its unit, the range in which it is honestly unknown, and its source."""

    value: float
    unit: str
    low: float
    high: float
    source: str


BALL_MASS = Constant(
    value=0.0577, unit="kg", low=0.0560, high=0.0594, source="Rules of Tennis, ball types 1 and 2"
)
BALL_RADIUS = Constant(
    value=0.0330, unit="m", low=0.0327, high=0.0343, source="Rules of Tennis, ball types 1 and 2"
)
INERTIA_SHARE = Constant(
    value=0.55, unit="m R²", low=0.50, high=2 / 3, source="Brody, Cross & Lindsey 2002"
)
DRAG = Constant(
    value=0.53,
    unit="1",
    low=0.50,
    high=0.58,
    source="between Cross & Lindsey 2014 (0.507) and the textbook 0.55",
)
LIFT_SHARE = Constant(
    value=1.0,
    unit="share of S / (1 + 2 S)",
    low=0.8,
    high=1.2,
    source="Cross's textbook form and Stepanek 1988; they agree to 0.002",
)
LIFT_SATURATION = 2.0  # the 2 in CL = S / (1 + 2 S)
AIR_DENSITY = Constant(
    value=1.204, unit="kg/m³", low=0.90, high=1.30, source="standard atmosphere, 0 m and 20 °C"
)
FOOTPRINT = Constant(
    value=0.03,
    unit="m",
    low=0.02,
    high=0.04,
    source="assumption: how far the middle of a ball that still touches the line may land past it",
)
GRIP_RESTITUTION = Constant(
    value=0.10, unit="1", low=0.0, high=0.2, source="Cross 2002: real balls grip, 0.1 to 0.2"
)
RUN_BACK = Constant(
    value=6.40,
    unit="m",
    low=5.49,
    high=6.40,
    source="Rules of Tennis, recommended and club minimum",
)
SIDE_RUN = Constant(
    value=3.66,
    unit="m",
    low=3.05,
    high=3.66,
    source="Rules of Tennis, recommended and club minimum",
)
CENTRE_LINE_HALF_WIDTH_M = 0.025  # Rules of Tennis: 5 cm wide, measured to its middle


@dataclass(frozen=True, slots=True, kw_only=True)
class BallKind:
    """A physical ball: mass (kg), radius (m), inertia, drag and lift; the default is yellow.

    `liveliness` multiplies a surface's restitution: 1 for the yellow ball, less for softer ones.
    """

    mass_kg: float = BALL_MASS.value
    radius_m: float = BALL_RADIUS.value
    inertia_share: float = INERTIA_SHARE.value
    drag: float = DRAG.value
    lift_share: float = LIFT_SHARE.value
    liveliness: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BallRecord:
    """What the ball rules allow a kind of ball: mass, radius, rebound of a drop from 2.54 m."""

    mass: Constant
    radius: Constant
    rebound: Constant

    def kind(self) -> BallKind:
        """The ball in the middle of its ranges; softer ones keep less of their upward speed."""
        return BallKind(
            mass_kg=self.mass.value,
            radius_m=self.radius.value,
            liveliness=float((self.rebound.value / APPROVAL_REBOUND.value) ** 0.5),
        )


BALL_RULES = "ball rules for children's stages, middle of the range"
APPROVAL_REBOUND = Constant(
    value=1.41, unit="m", low=1.35, high=1.47, source="Rules of Tennis, ball types 1 and 2"
)


def _allowed(unit: str, value: float, low: float, high: float) -> Constant:
    return Constant(value=value, unit=unit, low=low, high=high, source=BALL_RULES)


STAGE_BALLS = {
    "green": BallRecord(
        mass=_allowed("kg", 0.0493, 0.0470, 0.0515),
        radius=_allowed("m", 0.0330, 0.0315, 0.0343),
        rebound=_allowed("m", 1.275, 1.20, 1.35),
    ),
    "orange": BallRecord(
        mass=_allowed("kg", 0.0415, 0.0360, 0.0469),
        radius=_allowed("m", 0.0330, 0.0300, 0.0343),
        rebound=_allowed("m", 1.125, 1.05, 1.20),
    ),
    "red felt": BallRecord(
        mass=_allowed("kg", 0.0425, 0.0360, 0.0490),
        radius=_allowed("m", 0.0375, 0.0350, 0.0400),
        rebound=_allowed("m", 0.975, 0.90, 1.05),
    ),
    "red foam": BallRecord(
        mass=_allowed("kg", 0.0340, 0.0250, 0.0430),
        radius=_allowed("m", 0.0425, 0.0400, 0.0450),
        rebound=_allowed("m", 0.95, 0.85, 1.05),
    ),
}
YELLOW = BallKind()
GREEN = STAGE_BALLS["green"].kind()
ORANGE = STAGE_BALLS["orange"].kind()
RED_FELT = STAGE_BALLS["red felt"].kind()
RED_FOAM = STAGE_BALLS["red foam"].kind()
LARGE_RADIUS = Constant(
    value=0.0357, unit="m", low=0.0350, high=0.0365, source="Rules of Tennis, ball type 3"
)
LARGE = BallKind(radius_m=LARGE_RADIUS.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Density (kg/m³) and steady wind (m/s): across blows to the hitter's right, along away."""

    density_kg_m3: float = AIR_DENSITY.value
    wind_across_ms: float = 0.0
    wind_along_ms: float = 0.0


STILL_AIR = Air()
VACUUM = Air(density_kg_m3=0.0)


def air_density_kg_m3(altitude_m: float = 0.0, temperature_c: float = 20.0) -> float:
    """Density of dry air in kg/m³ (standard atmosphere; humidity changes it by under 1 %)."""
    pressure_pa = 101325.0 * (1.0 - 2.25577e-5 * altitude_m) ** 5.25588
    return float(pressure_pa / (287.06 * (temperature_c + 273.15)))


class SurfaceName(StrEnum):
    """The surfaces the bounce model knows."""

    GRASS = "grass"
    HARD = "hard"
    CLAY = "clay"


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """Bounce numbers: normal restitution, sliding friction, sideways restitution once gripped."""

    restitution: float
    friction: float
    grip_restitution: float = GRIP_RESTITUTION.value


DROP_TEST = "drop test of 1.8 m, a maker's page on clay and grass"
RECALLED = "recalled from the literature on bounces; the range is an assumption"
RESTITUTION = {
    SurfaceName.GRASS: Constant(value=0.75, unit="1", low=0.65, high=0.78, source=DROP_TEST),
    SurfaceName.HARD: Constant(value=0.80, unit="1", low=0.75, high=0.85, source=RECALLED),
    SurfaceName.CLAY: Constant(value=0.85, unit="1", low=0.80, high=0.88, source=DROP_TEST),
}
# At 16 degrees no friction above about 0.74 can show: the ball grips first.
FRICTION = {
    SurfaceName.GRASS: Constant(value=0.60, unit="1", low=0.50, high=0.65, source=RECALLED),
    SurfaceName.HARD: Constant(
        value=0.66, unit="1", low=0.50, high=0.70, source="a medium pace rating of 35.5"
    ),
    SurfaceName.CLAY: Constant(value=0.80, unit="1", low=0.74, high=0.90, source=RECALLED),
}
SURFACES = {
    name: Surface(restitution=RESTITUTION[name].value, friction=FRICTION[name].value)
    for name in SurfaceName
}
HARD = SURFACES[SurfaceName.HARD]
