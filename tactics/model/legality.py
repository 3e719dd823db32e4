"""What cannot happen on a court, as data with reasons: no proof and no scenario goes there.

A rule set adds lines of its own under `cannot happen`. That a fact does not exist in a game
situation (no incoming ball for a server) is said by the fact itself, in the vocabulary.
"""

from dataclasses import dataclass, field

from tactics.model.condition import All, AnyOf, Condition, Not, Test
from tactics.model.facts import AT_NET, FACING_NET, RALLY, RETURNING, SERVING
from tactics.model.known import Interval, OneOf, Within, at_least, less_than
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Impossible:
    """Facts (and parts of a choice) that never come together, and why. `id` is kebab-case."""

    id: str
    when: Condition
    because: str
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Follows:
    """A fact or part that follows from others (`from_`), and how, in words."""

    id: str
    fact: str
    from_: tuple[str, ...]
    because: str


def _is(name: str, *words: str) -> Test:
    return Test(name=name, allowed=OneOf(frozenset(words)), text=" or ".join(words))


def _lies(name: str, interval: Interval, text: str) -> Test:
    return Test(name=name, allowed=Within((interval,)), text=text)


def _during(phase: str, *others: Condition) -> Condition:
    return All((_is("game situation", phase), *others))


_BOUNCED = ("rising", "top", "falling")
_SERVED = ("wide", "T", "at body")


def _met_in_front_of_its_bounce() -> Condition:
    """Return a bounced ball that is met a whole band nearer to the net than it bounced."""
    limits = ((3.0, "3 m", 6.4, "6.4 m"), (6.4, "6.4 m", 9.1, "9.1 m"))
    return All(
        (
            _is("bounce", *_BOUNCED),
            AnyOf(
                tuple(
                    All(
                        (
                            _lies("court depth", less_than(near), f"less than {near_text}"),
                            _lies("incoming depth", at_least(far), f"at least {far_text}"),
                        )
                    )
                    for near, near_text, far, far_text in limits
                )
            ),
        )
    )


LEGALITY: tuple[Impossible, ...] = (
    Impossible(
        id="server-behind-the-line",
        when=_during(SERVING, _lies("court depth", less_than(11.4), "less than 11.4 m")),
        because="a serve is struck from behind the baseline, at most leaning in over it",
    ),
    Impossible(
        id="server-between-the-lines",
        when=_during(
            SERVING,
            _is("format", "singles"),
            AnyOf((
                _lies("court width", less_than(-4.115), "less than -4.115 m"),
                _lies("court width", at_least(4.115), "at least 4.115 m"),
            )),
        ),
        because="in singles a server stands between the centre mark and the singles sideline",
    ),
    Impossible(
        id="server-is-not-jammed",
        when=_during(SERVING, _is("balance", "jammed")),
        because="the server's own toss does not come at the body",
    ),
    Impossible(
        id="serve-goes-into-its-box",
        when=_during(SERVING, Not(_is("direction", *_SERVED))),
        because="a serve goes wide, at the body or to the T",
    ),
    Impossible(
        id="serve-places-are-for-serves",
        when=All((Not(_is("game situation", SERVING)), _is("direction", "wide", "T"))),
        because="wide and T are places of the service box",
    ),
    Impossible(
        id="serve-is-a-serve",
        when=_during(SERVING, Not(_is("stroke", "serve"))),
        because="whoever serves plays a serve",
    ),
    Impossible(
        id="only-servers-serve",
        when=All((Not(_is("game situation", SERVING)), _is("stroke", "serve"))),
        because="nobody else in the point plays a serve",
    ),
    Impossible(
        id="returner-not-at-the-net",
        when=_during(RETURNING, _lies("court depth", less_than(6.4), "less than 6.4 m")),
        because="a returner waits behind the service box",
    ),
    Impossible(
        id="serve-is-not-volleyed",
        when=_during(RETURNING, _is("bounce", "volley")),
        because="a serve must bounce before it is returned",
    ),
    Impossible(
        id="serve-lands-in-the-box",
        when=_during(RETURNING, _lies("incoming depth", at_least(6.4), "at least 6.4 m")),
        because="a serve that is good lands between the net and the service line",
    ),
    Impossible(
        id="serve-comes-from-its-box",
        when=_during(RETURNING, Not(_is("incoming direction", *_SERVED))),
        because="a serve comes wide, at the body or to the T",
    ),
    Impossible(
        id="serve-places-come-from-serves",
        when=All((Not(_is("game situation", RETURNING)), _is("incoming direction", "wide", "T"))),
        because="wide and T are places of the service box",
    ),
    Impossible(
        id="only-returners-return",
        when=All((Not(_is("game situation", RETURNING)), _is("stroke", "return"))),
        because="a return answers a serve",
    ),
    Impossible(
        id="server-stays-back",
        when=_during(RETURNING, _lies("opponent depth", less_than(9.1), "less than 9.1 m")),
        because="a server cannot be further in by the time the return is struck",
    ),
    Impossible(
        id="returner-stays-back",
        when=_during(SERVING, _lies("opponent depth", less_than(6.4), "less than 6.4 m")),
        because="a returner waits behind the service box",
    ),
    Impossible(
        id="net-player-not-at-the-back",
        when=_during(AT_NET, _lies("court depth", at_least(11.4), "at least 11.4 m")),
        because="who is at the net, or on the way in, has left the baseline",
    ),
    Impossible(
        id="opponent-at-net-is-in",
        when=_during(FACING_NET, _lies("opponent depth", at_least(9.1), "at least 9.1 m")),
        because="an opponent at the net, or on the way in, is in front of the back court",
    ),
    Impossible(
        id="rally-opponent-not-in",
        when=_during(RALLY, _lies("opponent depth", less_than(6.4), "less than 6.4 m")),
        because="in a baseline rally nobody has come in; that is: opponent at net",
    ),
    Impossible(
        id="passing-needs-someone-to-pass",
        when=All((Not(_is("game situation", FACING_NET)), _is("intent", "pass"))),
        because="only an opponent who comes in can be passed",
    ),
    Impossible(
        id="overhead-is-above-the-shoulder",
        when=All((
            _is("wing", "overhead"), _lies("body height", less_than(0.8), "less than 0.8"),
        )),
        because="a ball met overhead is above the shoulder",
    ),
    Impossible(
        id="volley-has-not-bounced",
        when=All((
            Not(_is("bounce", "volley")), _is("stroke", "volley", "swing volley"),
        )),
        because="a volley is struck before the ball bounces",
    ),
    Impossible(
        id="half-volley-off-the-ground",
        when=All((
            Not(_is("bounce", "half volley")), _is("stroke", "half volley"),
        )),
        because="a half volley is struck as the ball leaves the ground",
    ),
    Impossible(
        id="bounced-ball-met-behind-its-bounce",
        when=_met_in_front_of_its_bounce(),
        because="a ball goes on after its bounce, so it is met behind that place",
    ),
    Impossible(
        id="no-wind-has-no-strength",
        when=All((
            _is("wind", "none"), _lies("wind strength", at_least(15.0), "at least 15 km/h"),
        )),
        because="without wind nothing blows hard",
    ),
)  # fmt: skip
"""Lines that hold for every rule set. A line counts where a rule set knows all its words."""

FOLLOWING: tuple[Follows, ...] = (
    Follows(
        id="hands-follow", fact="hands", from_=("own hand", "opponent hand"),
        because="whether two players use the same hand follows from their hands",
    ),
    Follows(
        id="heights-follow", fact="body height", from_=("contact height", "stature"),
        because="the height over the ground is the height on the body times the stature",
    ),
    Follows(
        id="time-goes-with-pace", fact="incoming time",
        from_=("incoming pace", "court depth", "opponent depth"),
        because="between two players at the back a faster ball leaves less time",
    ),
    Follows(
        id="wing-found-follows", fact="finds",
        from_=("direction", "court width", "wing", "serve side", "own hand", "opponent hand",
               "hands"),
        because="the wing a ball finds follows from its direction, the place it is struck and "
        "both hands",
    ),
)  # fmt: skip
"""Facts that cannot take any value beside the others, because they follow from them."""
