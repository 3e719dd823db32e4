"""The clock of a question: off unless asked for, stopped while nothing can be read, extendable."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

MORE_S = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """Seconds left when the clock last stood, and since when it has been running (None: stands)."""

    left_s: float
    since: datetime | None = None

    def left(self, now: datetime) -> float:
        """Return how many seconds are left; a clock that was set back takes nothing away."""
        if self.since is None:
            return self.left_s
        return self.left_s - max(timedelta(0), now - self.since).total_seconds()

    def shown(self, now: datetime) -> int:
        """Return the whole seconds to be shown."""
        return max(0, int(self.left(now) + 0.999))

    def started(self, now: datetime) -> "Clock":
        """Return the clock running from now on."""
        return self if self.since is not None else replace(self, since=now)

    def stopped(self, now: datetime) -> "Clock":
        """Return the clock standing."""
        return Clock(left_s=self.left(now))

    def extended(self) -> "Clock":
        """Return the clock with more time on it."""
        return replace(self, left_s=self.left_s + MORE_S)

    def is_over(self, now: datetime) -> bool:
        """Say whether the time has run out."""
        return self.since is not None and self.left(now) <= 0
