"""A number a question cannot be answered with, as a value: which one, and what would do."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfRange:
    """The name of the number, what it was, and the range that can be answered (both included)."""

    name: str
    value: float
    low: float
    high: float
    unit: str = ""

    @property
    def sentence(self) -> str:
        """The whole remark in a line."""
        unit = f" {self.unit}" if self.unit else ""
        return (
            f"{self.name} {self.value:g}{unit} cannot be used: "
            f"{self.low:g} to {self.high:g}{unit} is possible"
        )


def out_of_range(
    name: str, value: float, low: float, high: float, unit: str = ""
) -> OutOfRange | None:
    """The remark when the value is outside the range or no number, else None."""
    if low <= value <= high:
        return None
    return OutOfRange(name=name, value=value, low=low, high=high, unit=unit)
