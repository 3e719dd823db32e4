"""The parts of a choice: what the player tried to do with the ball."""

from tactics.model.facts import BOUNCE_BANDS
from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.units import Unit

PARTS: tuple[Trait, ...] = (
    Trait(
        name="response", role=Role.PART, kind=Kind.WORDS, quick=True, effort=True,
        words=(
            Word(name="played"), Word(name="let go", mark="no stroke, ball left or watched",
                                      also=("no stroke",)),
            Word(name="stopped before a call", mark="caught it or stood still with no call",
                 also=("stopped",)),
        ),
        says="whether the ball was played at all", question="Was the ball played?",
        ordinary="played",
    ),
    Trait(
        name="intent", role=Role.PART, kind=Kind.WORDS, quick=True,
        words=(
            Word(name="keep in play"), Word(name="buy time"), Word(name="neutralise"),
            Word(name="build"), Word(name="change direction"), Word(name="force"),
            Word(name="finish"), Word(name="approach"), Word(name="pass"),
            Word(name="dip at the feet"), Word(name="lob"), Word(name="drop"),
            Word(name="surprise"),
        ),
        says="what the player wanted from the ball: ask, do not guess from what it did",
        question="What was the ball meant to do?",
    ),
    Trait(
        name="stroke", role=Role.PART, kind=Kind.WORDS, quick=True,
        words=(
            Word(name="forehand"), Word(name="one-handed backhand"),
            Word(name="two-handed backhand", also=("backhand",)), Word(name="slice"),
            Word(name="run-around forehand"), Word(name="volley"), Word(name="swing volley"),
            Word(name="half volley"), Word(name="smash"), Word(name="lob"),
            Word(name="drop shot"), Word(name="serve"), Word(name="return"),
        ),
        says="the stroke that was used", question="Which stroke?",
    ),
    Trait(
        name="direction", role=Role.PART, kind=Kind.WORDS, quick=True,
        words=(
            Word(name="crosscourt", also=("cross",)),
            Word(name="straight", also=("down the line",)), Word(name="middle"),
            Word(name="inside-out"), Word(name="inside-in"), Word(name="sharp angle"),
            Word(name="at body", also=("body",)),
            Word(name="behind", mark="back where they came from", also=("against the run",)),
            Word(name="wide", mark="a serve to the outside of the box"),
            Word(name="T", mark="a serve to the centre line", also=("to the T",)),
        ),
        says="the road the ball was sent on", question="Where was it sent?",
    ),
    Trait(
        name="finds", role=Role.PART, kind=Kind.WORDS, derived=True,
        words=(Word(name="forehand"), Word(name="backhand"), Word(name="body")),
        says="the wing of the opponent that the ball finds; worked out from the direction, the "
        "place and both hands",
        question="Which wing of the opponent does it find?",
    ),
    Trait(
        name="depth", role=Role.PART, kind=Kind.NUMBER, unit=Unit.METRE, low=0.0, high=14.0,
        words=BOUNCE_BANDS, ordered=True,
        says="how far from the net the ball was meant to land",
        by_eye="Service line 6.4 m, halfway cone 9.1 m, baseline 11.9 m.",
        question="How deep was it meant to land?",
    ),
    Trait(
        name="height over net", role=Role.PART, kind=Kind.NUMBER, unit=Unit.METRE,
        low=-1.2, high=12.0, ordered=True, quick=True, also=("net height",),
        words=(
            Word(name="skim", low=0.0, high=0.3),
            Word(name="drive", low=0.3, high=0.7, also=("low",), mark="up to one racket over"),
            Word(name="rally", low=0.7, high=1.3, also=("normal",), mark="one to two rackets"),
            Word(name="lifted", low=1.3, high=2.5, also=("high",), mark="two rackets and more"),
            Word(name="loop", low=2.5, mark="clear over a raised racket"),
        ),
        says="height over the net tape where the ball crosses it",
        by_eye="A racket is 0.68 m long: one over the tape is a firm rally ball.",
        question="How high over the net was it meant to go?",
    ),
    Trait(
        name="inside line", role=Role.PART, kind=Kind.NUMBER, unit=Unit.METRE,
        low=-2.0, high=6.0, ordered=True,
        words=(
            Word(name="on the line", high=0.4), Word(name="near the line", low=0.4, high=0.9),
            Word(name="safe", low=0.9, high=1.6, mark="about one doubles alley inside"),
            Word(name="well inside", low=1.6),
        ),
        says="how far inside the nearest sideline the aim was",
        by_eye="The doubles alley is 1.37 m wide.",
        question="How far inside the sideline was the aim?",
    ),
    Trait(
        name="pace", role=Role.PART, kind=Kind.NUMBER, unit=Unit.PERCENT, low=0.0, high=120.0,
        ordered=True, quick=True,
        words=(
            Word(name="touch", high=40.0), Word(name="control", low=40.0, high=65.0,
                                               also=("soft",)),
            Word(name="medium", low=65.0, high=75.0, also=("rally",)),
            Word(name="heavy", low=75.0, high=85.0),
            Word(name="attack", low=85.0, high=92.0, also=("hard",)),
            Word(name="all-out", low=92.0),
        ),
        says="speed in per cent of the player's own best for that stroke",
        question="How hard, against the player's own best?",
    ),
    Trait(
        name="spin", role=Role.PART, kind=Kind.WORDS,
        words=(
            Word(name="heavy top"), Word(name="top", also=("topspin",)), Word(name="flat"),
            Word(name="slice", also=("backspin",)), Word(name="side", also=("sidespin",)),
            Word(name="kick"),
        ),
        says="the spin that was meant", question="With which spin?",
    ),
    Trait(
        name="afterwards", role=Role.PART, kind=Kind.WORDS, effort=True,
        words=(
            Word(name="recover", mark="back to the middle of their choices"),
            Word(name="follow in"), Word(name="hold ground"), Word(name="back up"),
            Word(name="watch", mark="stood and looked at the ball"),
        ),
        says="what the player did after the stroke", question="What did the player do then?",
    ),
    Trait(
        name="stance", role=Role.PART, kind=Kind.WORDS, effort=True,
        words=(
            Word(name="split", mark="landed as the opponent hit", also=("split at their hit",)),
            Word(name="on the move", mark="still running as they hit"),
            Word(name="flat-footed", mark="standing as they hit"),
        ),
        says="what the feet did as the opponent hit", question="What did the feet do?",
    ),
)  # fmt: skip
