"""Study days: by the clock on the wall, rolling over at four in the morning."""

from datetime import UTC, date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tactics.quiz.days import noon, study_day

BERLIN, TOKYO = timezone(timedelta(hours=1)), timezone(timedelta(hours=9))
YEAR_1990 = datetime(1990, 1, 1)  # noqa: DTZ001 - Hypothesis adds the zone
HAWAII = timezone(timedelta(hours=-10))


@pytest.mark.parametrize(
    ("moment", "day"),
    [
        (datetime(2026, 3, 2, 20, 0, tzinfo=BERLIN), date(2026, 3, 2)),
        (datetime(2026, 3, 2, 23, 59, tzinfo=BERLIN), date(2026, 3, 2)),
        (datetime(2026, 3, 3, 0, 0, tzinfo=BERLIN), date(2026, 3, 2)),
        (datetime(2026, 3, 3, 3, 59, tzinfo=BERLIN), date(2026, 3, 2)),
        (datetime(2026, 3, 3, 4, 0, tzinfo=BERLIN), date(2026, 3, 3)),
        (datetime(2028, 3, 1, 3, 0, tzinfo=BERLIN), date(2028, 2, 29)),
        (datetime(2027, 3, 1, 3, 0, tzinfo=BERLIN), date(2027, 2, 28)),
        (datetime(2027, 1, 1, 1, 0, tzinfo=HAWAII), date(2026, 12, 31)),
    ],
)
def test_the_day_rolls_over_at_four_in_the_morning(moment: datetime, day: date) -> None:
    assert study_day(moment) == day


@given(st.datetimes(timezones=st.timezones(), min_value=YEAR_1990))
def test_the_hour_on_the_wall_decides_wherever_the_wall_is(moment: datetime) -> None:
    before_four = moment.hour < 4

    assert study_day(moment) == moment.date() - timedelta(days=before_four)


@pytest.mark.parametrize("day", [date(2026, 3, 29), date(2026, 10, 25)], ids=["spring", "autumn"])
def test_a_change_of_clocks_at_night_makes_no_day_longer(day: date) -> None:
    zone = ZoneInfo("Europe/Berlin")
    start = datetime(day.year, day.month, day.day, 4, tzinfo=zone)

    assert study_day(start) == day
    assert study_day(start - timedelta(minutes=1)) == day - timedelta(days=1)


def test_an_evening_and_the_next_one_ten_minutes_earlier_are_a_day_apart() -> None:
    monday = datetime(2026, 3, 2, 20, 0, tzinfo=BERLIN)
    tuesday = datetime(2026, 3, 3, 19, 50, tzinfo=BERLIN)

    assert noon(study_day(tuesday)) - noon(study_day(monday)) == timedelta(days=1)


def test_a_traveller_keeps_the_day_that_the_clock_there_shows() -> None:
    moment = datetime(2026, 3, 2, 22, 0, tzinfo=UTC)

    assert study_day(moment.astimezone(TOKYO)) == date(2026, 3, 3)
    assert study_day(moment.astimezone(HAWAII)) == date(2026, 3, 2)


def test_a_moment_without_a_time_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="time zone"):
        study_day(datetime(2026, 3, 2, 12))  # noqa: DTZ001 - on purpose
