"""Study days: the day rolls over at four in the morning, by the clock on the player's wall."""

from datetime import UTC, date, datetime, time, timedelta

_ROLLS_OVER = timedelta(hours=4)


def study_day(now: datetime) -> date:
    """Return the study day of a moment, which has to know its time zone."""
    if now.tzinfo is None:
        raise ValueError("a moment without a time zone has no study day")
    return (now.replace(tzinfo=None) - _ROLLS_OVER).date()


def noon(day: date) -> datetime:
    """Return noon UTC of a day: whole days lie between two of them, whatever the hour was."""
    return datetime.combine(day, time(12), tzinfo=UTC)
