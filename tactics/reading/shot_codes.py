"""Every kind of mistake in a question about a shot, a margin, a place or a scatter."""

from enum import StrEnum


class ShotCode(StrEnum):
    """Codes of problems with numbers on the court; each has its page."""

    UNCLEAR_NUMBER = "unclear-number"
    CANNOT_BE = "cannot-be"
    UNUSUAL_NUMBER = "unusual-number"
    NO_SERVICE_LINE = "no-service-line"
    NOT_A_SHOT = "not-a-shot"
    LANDING_COLUMNS = "landing-columns"
    LANDING_PLACE = "landing-place"
    FEW_LANDINGS = "few-landings"
