"""Rule files without a mistake, for the mistake corpus to spoil."""

import re
from functools import cache
from pathlib import Path

import tactics
from tests.reading.rule_texts import FULL
from tests.reading.spots import Good

RULES = Path(tactics.__file__).parent.parent / "rules"

BELOW = """\
rule set: Below
precedence: [safety, court position]
rules:
  long-road-home:
    title: The long road home
    concern: court position
    strength: should
    advise: {direction: crosscourt}
    because: The court is longer.
    cue: Long road
  late-ball-high:
    title: A late ball goes high
    concern: safety
    strength: may
    advise: {height over net: at least 1.5 m}
    because: Height buys time.
    cue: Late means high
"""

ABOVE = """\
rule set: Above
builds on: [below.yaml]
terms:
  reaching:
    means: nowhere near the ball
    balance: [stretched, jammed]
rules:
  late-ball-high: off
  reach-and-slice:
    title: Reaching, slice it back
    concern: safety
    strength: must
    when:
      game situation: returning
      reaching: yes
      incoming time: fast
    advise:
      stroke: slice
      direction:
        - middle
        - crosscourt
      pace: at most 70 %
      height over net: 0.6 to 2 m
    aim:
      direction: middle
      height over net: 1.2 m
    beats: long-road-home
    because: A slice needs no swing, and the middle
      has room on both sides.
    cue: 'Don''t swing, slice'
    evidence: practice
    examples:
      - given:
          balance: stretched
          incoming time: fast
        choose:
          direction: middle
          stroke: slice
        grade: sound
      - given: {balance: stretched}
        choose: {pace: 95 %}
        grade: unsound
"""


@cache
def small_files() -> tuple[Good, ...]:
    """Return the files written for tests: one with everything, two that lie on each other."""
    return (
        Good(name="full.yaml", text=FULL),
        Good(name="above.yaml", text=ABOVE),
        Good(name="below.yaml", text=BELOW),
    )


@cache
def shipped_pieces(each: int) -> tuple[Good, ...]:
    """Return every so many rules of the shipped set as files of their own, with its heading."""
    text = (RULES / "singles-club.yaml").read_text(encoding="utf-8")
    head, body = re.split(r"(?m)^rules:\n", text, maxsplit=1)
    body = re.split(r"(?m)^mixes:\n", body, maxsplit=1)[0]
    starts = [found.start() for found in re.finditer(r"(?m)^  [a-z-]+:\n", body)]
    pieces = [
        body[start:stop] for start, stop in zip(starts, [*starts[1:], len(body)], strict=True)
    ]
    alone = [piece for piece in pieces if "    beats:" not in piece]
    return tuple(
        Good(name="piece.yaml", text=f"{head}rules:\n{piece.rstrip()}\n") for piece in alone[::each]
    )


@cache
def whole_set() -> Good:
    """Return the shipped set."""
    text = (RULES / "singles-club.yaml").read_text(encoding="utf-8")
    return Good(name="singles-club.yaml", text=text)
