"""Normal shares, quantiles and fixed point sets: what replaces random draws."""

from functools import cache
from statistics import NormalDist
from typing import Final

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Index = npt.NDArray[np.intp]
Mask = npt.NDArray[np.bool_]

# Abramowitz & Stegun 26.2.17, absolute error below 7.5e-8
_P: Final = 0.2316419
_B: Final = (0.319381530, -0.356563782, 1.781477937, -1.821255978, 1.330274429)
_INV_SQRT_2PI: Final = 0.3989422804014327

# Joe and Kuo's direction numbers for dimensions 2 to 4: (degree, inner bits, first m values)
_SOBOL: Final = ((1, 0, (1,)), (2, 1, (1, 3)), (3, 1, (1, 3, 1)))
_BITS: Final = 30


def normal_share(z: npt.ArrayLike) -> Array:
    """Share of a standard normal below z, any shape; exactly symmetric about 0."""
    points = np.asarray(z, dtype=np.float64)
    size = np.abs(points)
    t = 1.0 / (1.0 + _P * size)
    series = t * (_B[0] + t * (_B[1] + t * (_B[2] + t * (_B[3] + t * _B[4]))))
    tail = _INV_SQRT_2PI * np.exp(-0.5 * size * size) * series
    below: Array = np.where(points < 0.0, tail, 1.0 - tail)
    return below


def normal_quantile(share: float) -> float:
    """The z below which that share (0 to 1, both excluded) of a standard normal lies."""
    return NormalDist().inv_cdf(share)


def logit(share: npt.ArrayLike) -> Array:
    """Log odds of a share; 0 and 1 are held a billionth away from the ends."""
    inside = np.clip(np.asarray(share, dtype=np.float64), 1e-9, 1.0 - 1e-9)
    odds: Array = np.log(inside / (1.0 - inside))
    return odds


def from_logit(odds: npt.ArrayLike) -> Array:
    """Share for log odds, any shape."""
    share: Array = 1.0 / (1.0 + np.exp(-np.asarray(odds, dtype=np.float64)))
    return share


@cache
def quasi_normals(power: int) -> Array:
    """2**power standard normals in 4 dimensions, shape (2**power, 4), the same on every call.

    Sobol points (Joe and Kuo), each moved half a cell inwards so that none is infinite.
    """
    count = 1 << power
    uniform = (_sobol_integers(count) + 0.5 * (1 << (_BITS - power))) / float(1 << _BITS)
    inverse = NormalDist().inv_cdf
    normals = np.array([inverse(u) for u in uniform.ravel()]).reshape(uniform.shape)
    normals.setflags(write=False)
    return normals


def _sobol_integers(count: int) -> Array:
    """First points of the four-dimensional sequence as whole numbers, in Gray-code order."""
    directions = np.stack(
        [_van_der_corput(), *(_direction_numbers(*row) for row in _SOBOL)], axis=1
    )
    points = np.zeros((count, 4), dtype=np.int64)
    for index in range(1, count):
        lowest = (index & -index).bit_length() - 1
        points[index] = points[index - 1] ^ directions[lowest]
    return points.astype(np.float64)


def _van_der_corput() -> npt.NDArray[np.int64]:
    return np.array([1 << (_BITS - 1 - k) for k in range(_BITS)], dtype=np.int64)


def _direction_numbers(degree: int, inner: int, first: tuple[int, ...]) -> npt.NDArray[np.int64]:
    m = list(first)
    for k in range(degree, _BITS):
        value = m[k - degree] ^ (m[k - degree] << degree)
        for j in range(1, degree):
            if (inner >> (degree - 1 - j)) & 1:
                value ^= m[k - j] << j
        m.append(value)
    return np.array([m[k] << (_BITS - 1 - k) for k in range(_BITS)], dtype=np.int64)
