"""Dates in a chart, without guessing which of two numbers is the month."""

import re
from datetime import date

_YEAR_FIRST = re.compile(
    r"(?P<year>[0-9]{4})(?P<sep>[-/.])(?P<month>[0-9]{1,2})(?P=sep)(?P<day>[0-9]{1,2})"
)
_DAY_FIRST = re.compile(
    r"(?P<day>[0-9]{1,2})(?P<sep>[-/.]) ?(?P<month>[0-9]{1,2})(?P=sep) ?(?P<year>[0-9]{4})"
)
_CLOCK = re.compile(r"[ T][0-9]{1,2}:[0-9]{2}(:[0-9]{2}(\.[0-9]+)?)?Z?$")


def read_date(text: str) -> str | None:
    """Return a date in ISO form, or None where it is none or can be read in two ways.

    2026-03-14, 14.3.2026 and 14/03/2026 are one day; 03/04/2026 may be two. The time of day that
    a spreadsheet puts behind a date is passed over.
    """
    bare = _CLOCK.sub("", text)
    found = _YEAR_FIRST.fullmatch(bare) or _DAY_FIRST.fullmatch(bare)
    if found is None:
        return None
    try:
        day = date(int(found["year"]), int(found["month"]), int(found["day"]))
    except ValueError:
        return None
    return None if _has_two_readings(found, day) else day.isoformat()


def _has_two_readings(found: re.Match[str], day: date) -> bool:
    is_day_first = found.re is _DAY_FIRST and found["sep"] != "."
    return is_day_first and day.day <= 12 and day.day != day.month
