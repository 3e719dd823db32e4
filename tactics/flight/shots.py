"""Several shots from one contact, and the many balls that a player's scatter makes of each."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tactics.flight.motion import Array, Motion, launches
from tactics.flight.normal import Index, Mask
from tactics.flight.scatter import Scatter


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Where the hitter meets the ball (m): x to the right, depth from the net, height."""

    x_m: float
    depth_m: float
    height_m: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shots:
    """n shots from one contact; arrays (n,) in m/s, degrees and rpm, nan where none exists."""

    contact: Contact
    pace_ms: Array
    elevation_deg: Array
    azimuth_deg: Array
    topspin_rpm: Array
    sidespin_rpm: Array

    def __len__(self) -> int:
        """Number of shots."""
        return int(self.pace_ms.size)

    @property
    def exists(self) -> Mask:
        """Whether the shot can be played, (n,)."""
        return np.asarray(~np.isnan(self.elevation_deg))

    def only(self, which: Index | Mask) -> "Shots":
        """The shots picked by a mask or by indices."""
        return Shots(
            contact=self.contact,
            pace_ms=self.pace_ms[which],
            elevation_deg=self.elevation_deg[which],
            azimuth_deg=self.azimuth_deg[which],
            topspin_rpm=self.topspin_rpm[which],
            sidespin_rpm=self.sidespin_rpm[which],
        )

    def launch(self) -> Motion:
        """The shots as aimed, n balls."""
        return self._launch(
            self.pace_ms,
            self.elevation_deg,
            self.azimuth_deg,
            self.topspin_rpm,
            self.sidespin_rpm,
        )

    def scattered(self, normals: Array, spread: "Spread") -> Motion:
        """Each shot with every error of `normals` (m, 4), n x m balls, one shot after the other."""
        elevation, azimuth, speed, spin = normals.T
        turn = 1.0 + spread.spin[:, None] * spin
        return self._launch(
            self.pace_ms[:, None] * (1.0 + spread.speed[:, None] * speed),
            self.elevation_deg[:, None] + spread.elevation_deg[:, None] * elevation,
            self.azimuth_deg[:, None] + spread.azimuth_deg[:, None] * azimuth,
            self.topspin_rpm[:, None] * turn,
            self.sidespin_rpm[:, None] * turn,
        )

    def _launch(
        self, pace: Array, elevation: Array, azimuth: Array, topspin: Array, sidespin: Array
    ) -> Motion:
        return launches(
            x_m=self.contact.x_m,
            y_m=-self.contact.depth_m,
            z_m=self.contact.height_m,
            pace_ms=pace,
            elevation_deg=elevation,
            azimuth_deg=azimuth,
            topspin_rpm=topspin,
            sidespin_rpm=sidespin,
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spread:
    """Scatter of each of n shots, arrays (n,): degrees, and fractions of speed and spin."""

    elevation_deg: Array
    azimuth_deg: Array
    speed: Array
    spin: Array

    def only(self, which: Index | Mask) -> "Spread":
        """The spreads picked by a mask or by indices."""
        return Spread(
            elevation_deg=self.elevation_deg[which],
            azimuth_deg=self.azimuth_deg[which],
            speed=self.speed[which],
            spin=self.spin[which],
        )


def spread_of(scatters: Sequence[Scatter]) -> Spread:
    """One scatter per shot, as arrays."""
    return Spread(
        elevation_deg=np.array([each.sd_elevation_deg for each in scatters]),
        azimuth_deg=np.array([each.sd_azimuth_deg for each in scatters]),
        speed=np.array([each.sd_speed for each in scatters]),
        spin=np.array([each.sd_spin for each in scatters]),
    )


def joined_shots(parts: Sequence[Shots]) -> Shots:
    """Shots of one contact, one after the other."""
    return Shots(
        contact=parts[0].contact,
        pace_ms=np.concatenate([each.pace_ms for each in parts]),
        elevation_deg=np.concatenate([each.elevation_deg for each in parts]),
        azimuth_deg=np.concatenate([each.azimuth_deg for each in parts]),
        topspin_rpm=np.concatenate([each.topspin_rpm for each in parts]),
        sidespin_rpm=np.concatenate([each.sidespin_rpm for each in parts]),
    )
