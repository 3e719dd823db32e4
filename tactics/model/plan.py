"""The next lesson, block by block, and what to take home."""

from dataclasses import dataclass
from enum import StrEnum

from tactics.model.drill import Drill


class Care(StrEnum):
    """What a plan has to say about bodies and weather, as far as it is due."""

    RESTRICTED = "restricted"
    WARM_UP = "warm-up"
    SHOULDER = "shoulder"
    LOAD = "load"
    JUNIOR = "junior"
    WEATHER = "weather"


class Part(StrEnum):
    """What a block of a lesson is for, in the order of the lesson."""

    RETEST = "first, before any reminder"
    WARM_UP = "warm-up"
    DRILL = "drill"
    POINTS = "points with stops"
    CLOSE = "close"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Minutes of a lesson for one thing. rule: the priority it serves ("" for all of them)."""

    part: Part
    minutes: int
    rule: str = ""
    drill: Drill | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Homework:
    """Rules to quiz at home, in order, and how long and how often."""

    rules: tuple[str, ...]
    minutes: int
    times_a_week: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A lesson of so many minutes. rules: what it works on, at most three, in order.

    without_drill: of those, rules that no drill of the catalogue trains (today). waiting: rules
    that a restriction puts off. left_out: titles of drills it rules out.
    """

    minutes: int
    rules: tuple[str, ...]
    blocks: tuple[Block, ...]
    homework: Homework
    care: tuple[Care, ...]
    is_restricted: bool
    without_drill: tuple[str, ...] = ()
    waiting: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
