"""The facts of a situation: everything a coach may note about a ball before it is struck.

Bands are in the stored unit; a limit belongs to the band above it. Depths are metres from the
net on the player's own side, widths metres from the centre line towards the own forehand side.
"""

from tactics.model.trait import Kind, Role, Trait, Word
from tactics.model.units import Unit

SERVING, RETURNING = "serving", "returning"
RALLY, AT_NET, FACING_NET = "baseline rally", "approaching or at net", "opponent at net"
NO_SERVE = frozenset({RALLY, AT_NET, FACING_NET})
NO_INCOMING = frozenset({SERVING})


def _words(*names: str) -> tuple[Word, ...]:
    return tuple(Word(name=name) for name in names)


DEPTH_BANDS = (
    Word(name="close net", high=3.0, mark="two steps from touching the net with the racket"),
    Word(name="forecourt", low=3.0, high=6.4, mark="inside the service boxes"),
    Word(name="midcourt", low=6.4, high=9.1, mark="just behind the service line"),
    Word(name="inside baseline", low=9.1, high=11.4, mark="front half of the back court"),
    Word(name="on baseline", low=11.4, high=12.9, mark="within a step of the line"),
    Word(name="behind", low=12.9, high=14.9, mark="one to three metres behind the baseline",
         also=("behind baseline",)),
    Word(name="far behind", low=14.9, mark="three metres behind or more, towards the fence"),
)  # fmt: skip

WIDTH_BANDS = (
    Word(name="wide backhand", high=-4.115, mark="feet outside the singles line, backhand side"),
    Word(name="backhand third", low=-4.115, high=-1.37, mark="outer third, backhand side"),
    Word(name="middle third", low=-1.37, high=1.37, mark="between two cones at 1.37 m",
         also=("middle",)),
    Word(name="forehand third", low=1.37, high=4.115, mark="outer third, forehand side"),
    Word(name="wide forehand", low=4.115, mark="feet outside the singles line, forehand side"),
)  # fmt: skip

BOUNCE_BANDS = (
    Word(name="drop", high=2.5, mark="dies close to the net"),
    Word(name="short", low=2.5, high=6.4, mark="inside the service box"),
    Word(name="mid", low=6.4, high=9.1, mark="service line to the halfway cone"),
    Word(name="deep", low=9.1, high=10.9, mark="beyond the halfway cone"),
    Word(name="very deep", low=10.9, mark="the last metre of the court"),
)

FACTS: tuple[Trait, ...] = (
    Trait(
        name="game situation", role=Role.FACT, kind=Kind.WORDS, quick=True,
        words=(
            Word(name=SERVING), Word(name=RETURNING),
            Word(name=RALLY, mark="both players back", also=("rally", "both back")),
            Word(name=AT_NET, mark="on the way in, or inside about 4 m",
                 also=("at net", "approaching")),
            Word(name=FACING_NET, mark="they are in, or on the way", also=("passing",)),
        ),
        says="which of the five phases of a point this ball belongs to",
        by_eye="Who is where: both back, one coming in, or the serve and its return.",
        question="What is going on in the point?", ordinary=RALLY,
    ),
    Trait(
        name="wing", role=Role.FACT, kind=Kind.WORDS,
        words=(Word(name="forehand", also=("fh",)), Word(name="backhand", also=("bh",)),
               Word(name="overhead")),
        says="the side on which the ball is met", by_eye="Watch the hitting shoulder.",
        question="On which side is the ball met?", ordinary="forehand",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="contact height", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE,
        low=0.0, high=3.6, ordered=True,
        words=(
            Word(name="well below", high=0.6, mark="under the middle of the net"),
            Word(name="below", low=0.6, high=0.9, mark="under the tape, above its middle"),
            Word(name="level", low=0.9, high=1.15, mark="about as high as the tape"),
            Word(name="above", low=1.15, high=1.6, mark="clearly over the tape"),
            Word(name="high", low=1.6, mark="a racket over the tape or more"),
        ),
        says="height of the ball over the ground when it is met, named against the net",
        by_eye="Compare the ball with the net tape: under it, level with it, over it.",
        question="How high is the ball against the net?", ordinary="level",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="body height", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.STATURE,
        low=0.0, high=1.9, ordered=True, quick=True,
        words=(
            Word(name="below knee", high=0.285), Word(name="thigh", low=0.285, high=0.52),
            Word(name="waist", low=0.52, high=0.64, mark="the strike zone"),
            Word(name="chest", low=0.64, high=0.8), Word(name="shoulder", low=0.8, high=0.98),
            Word(name="overhead", low=0.98),
        ),
        says="height of the ball against the player's own body, as a share of stature",
        by_eye="Which part of the body is the ball level with?",
        question="How high does the ball come up on the body?", ordinary="waist",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="court depth", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE, low=0.0, high=20.0,
        words=DEPTH_BANDS, ordered=True, quick=True,
        says="how far from the net the player meets the ball",
        by_eye="Count from the lines: service line 6.4 m, baseline 11.9 m.",
        question="How far back is the player?", ordinary="on baseline",
        ordinary_in=((AT_NET, "forecourt"),),
    ),
    Trait(
        name="court width", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE, low=-12.0, high=12.0,
        words=WIDTH_BANDS, ordered=True, quick=True,
        says="how far to the side the player meets the ball; backhand side counts negative",
        by_eye="Cones at 1.37 m either side of the centre cut the court in thirds.",
        question="How far to the side is the player?", ordinary="middle third",
    ),
    Trait(
        name="incoming time", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.SECOND, low=0.1, high=6.0,
        ordered=True,
        words=(
            Word(name="very fast", high=0.9), Word(name="fast", low=0.9, high=1.2),
            Word(name="medium", low=1.2, high=1.6), Word(name="slow", low=1.6),
        ),
        says="seconds from the opponent's hit to the player's own",
        by_eye='Say "hit and hit": hardly time for it is fast, time to spare is slow.',
        question="How much time is there from their hit to yours?", ordinary="medium",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="incoming pace", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.KMH, low=5.0, high=260.0,
        ordered=True,
        words=(
            Word(name="slow", high=75.0), Word(name="medium", low=75.0, high=100.0),
            Word(name="fast", low=100.0, high=133.0), Word(name="very fast", low=133.0),
        ),
        says="speed of the ball as it leaves the opponent's racket; gives the incoming time "
        "where both players are back",
        by_eye="Easier to judge as time: see incoming time.",
        question="How fast is the ball as it leaves their racket?",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="incoming spin", role=Role.FACT, kind=Kind.WORDS,
        words=(
            Word(name="heavy top", mark="kicks up to the shoulder", also=("kick",)),
            Word(name="top", also=("topspin",)), Word(name="flat"),
            Word(name="slice", mark="skids, stays under the thigh", also=("backspin",)),
            Word(name="side", mark="breaks to one side", also=("sidespin",)),
        ),
        says="what the spin does to the bounce", by_eye="Judge the bounce, not their swing.",
        question="What does the ball do when it bounces?", ordinary="top",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="incoming depth", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE,
        low=0.0, high=14.0, words=BOUNCE_BANDS, ordered=True,
        says="how far from the net the ball bounces on the player's side",
        by_eye="Service line 6.4 m; a cone halfway to the baseline marks 9.1 m.",
        question="Where does the ball bounce?", ordinary="deep",
        ordinary_in=((RETURNING, "short"),), absent_in=NO_INCOMING,
    ),
    Trait(
        name="incoming direction", role=Role.FACT, kind=Kind.WORDS, quick=True,
        words=(
            Word(name="crosscourt", also=("cross",)),
            Word(name="straight", also=("down the line",)), Word(name="middle"),
            Word(name="at body", also=("body",)),
            Word(name="sharp angle", mark="bounces short and leaves over the sideline"),
            Word(name="wide", mark="a serve to the outside of the box"),
            Word(name="T", mark="a serve to the centre line", also=("to the T",)),
        ),
        says="the road on which the ball came", by_eye="From their racket to the bounce.",
        question="Which road did the ball come on?", ordinary="crosscourt",
        ordinary_in=((RETURNING, "wide"),), absent_in=NO_INCOMING,
    ),
    Trait(
        name="ball line", role=Role.FACT, kind=Kind.WORDS, quick=True,
        words=(
            Word(name="outside", mark="travels across and away from the body"),
            Word(name="inside", mark="travels in towards or around the body"),
        ),
        says="whether the ball moves away from the body or in towards it as it is met",
        by_eye="Follow the path on to the fence: past the outer shoulder is outside.",
        question="Is the ball going away from the body or coming in?", ordinary="outside",
        absent_in=NO_INCOMING,
    ),
    Trait(
        name="bounce", role=Role.FACT, kind=Kind.WORDS,
        words=(
            Word(name="rising"), Word(name="top", mark="at its highest"), Word(name="falling"),
            Word(name="volley", mark="has not bounced", also=("in the air",)),
            Word(name="half volley", mark="struck as it leaves the ground"),
        ),
        says="where in its bounce the ball is met", by_eye="Going up, at the top, coming down?",
        question="Where in its bounce is the ball met?", ordinary="falling",
        ordinary_in=((AT_NET, "volley"),), absent_in=NO_INCOMING,
    ),
    Trait(
        name="balance", role=Role.FACT, kind=Kind.WORDS, quick=True,
        words=(
            Word(name="set", mark="outside foot down before the swing, head still"),
            Word(name="moving", mark="a controlled run, could still choose"),
            Word(name="stretched", mark="full reach; needs two steps or more to stop"),
            Word(name="jammed", mark="ball inside the elbow"),
        ),
        says="how the player stood at contact", by_eye="Could they recover in one step?",
        question="How does the player stand at contact?", ordinary="set",
    ),
    Trait(
        name="time", role=Role.FACT, kind=Kind.WORDS,
        words=(
            Word(name="plenty", mark="waited for the ball"), Word(name="normal"),
            Word(name="late", mark="contact behind the front hip"),
            Word(name="emergency", mark="only a block was possible"),
        ),
        says="whether the swing had the time it needs",
        by_eye="Where is the contact: in front, beside, behind?",
        question="Was there time for the swing?", ordinary="normal", absent_in=NO_INCOMING,
    ),
    Trait(
        name="steps to the ball", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.STEPS,
        low=0.0, high=30.0, ordered=True, also=("steps",),
        words=(
            Word(name="near", high=3.0, mark="0 to 2 steps"),
            Word(name="a run", low=3.0, high=5.0, mark="3 or 4 steps"),
            Word(name="far", low=5.0, mark="5 steps or more"),
        ),
        says="steps from the ready position to the ball", by_eye="Count them.",
        question="How many steps to the ball?", ordinary="near", absent_in=NO_INCOMING,
    ),
    Trait(
        name="opponent depth", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE,
        low=0.0, high=20.0, words=DEPTH_BANDS, ordered=True,
        says="how far from the net the opponent is, on their own side",
        by_eye="Look up once before the swing: back, between, or in?",
        question="How far back is the opponent?", ordinary="on baseline",
        ordinary_in=((FACING_NET, "forecourt"),),
    ),
    Trait(
        name="opponent width", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE,
        low=-12.0, high=12.0, words=WIDTH_BANDS, ordered=True,
        says="how far to their own side the opponent is; their backhand side counts negative",
        by_eye="Their forehand or backhand corner, or the middle?",
        question="To which side is the opponent?", ordinary="middle third",
    ),
    Trait(
        name="opponent movement", role=Role.FACT, kind=Kind.WORDS,
        words=(
            Word(name="still"), Word(name="recovering", mark="running back to the middle"),
            Word(name="running wide"), Word(name="stopped in a corner"), Word(name="coming in"),
            Word(name="backing up"), Word(name="unbalanced"),
        ),
        says="what the opponent does as the ball is met", by_eye="Look at their feet.",
        question="What is the opponent doing?", ordinary="still",
    ),
    Trait(
        name="own hand", role=Role.FACT, kind=Kind.WORDS, words=_words("right", "left"),
        says="the player's playing hand", question="Which hand does the player use?",
        ordinary="right",
    ),
    Trait(
        name="opponent hand", role=Role.FACT, kind=Kind.WORDS, words=_words("right", "left"),
        says="the opponent's playing hand", question="Which hand does the opponent use?",
        ordinary="right",
    ),
    Trait(
        name="hands", role=Role.FACT, kind=Kind.WORDS, derived=True,
        words=(Word(name="same", mark="both right or both left"), Word(name="opposite")),
        says="whether the two players use the same hand; worked out from the two hands",
        question="Do the two use the same hand?",
    ),
    Trait(
        name="backhand grip", role=Role.FACT, kind=Kind.WORDS,
        words=_words("one-handed", "two-handed"), says="hands on the racket for the backhand",
        question="One hand or two on the backhand?", ordinary="two-handed",
    ),
    Trait(
        name="serve number", role=Role.FACT, kind=Kind.WORDS, also=("serve no",),
        words=(Word(name="first", also=("1", "1st")), Word(name="second", also=("2", "2nd"))),
        says="first or second serve", question="First or second serve?", ordinary="first",
        absent_in=NO_SERVE,
    ),
    Trait(
        name="serve side", role=Role.FACT, kind=Kind.WORDS,
        words=(Word(name="deuce"), Word(name="ad", also=("advantage",))),
        says="the side the point is served from", question="Deuce or ad side?",
        ordinary="deuce", absent_in=NO_SERVE,
    ),
    Trait(
        name="score state", role=Role.FACT, kind=Kind.WORDS,
        words=(
            Word(name="normal"), Word(name="game point"), Word(name="break point"),
            Word(name="break chance"), Word(name="deuce"), Word(name="tie-break"),
            Word(name="set point"), Word(name="match point"),
        ),
        says="what hangs on the point, from the player's side",
        question="What hangs on this point?", ordinary="normal",
    ),
    Trait(
        name="surface", role=Role.FACT, kind=Kind.WORDS,
        words=(Word(name="slow", also=("clay",)), Word(name="medium", also=("hard",)),
               Word(name="fast", also=("grass", "indoor"))),
        says="how the court plays", question="How does the court play?", ordinary="medium",
    ),
    Trait(
        name="wind", role=Role.FACT, kind=Kind.WORDS,
        words=(Word(name="none"), Word(name="with", also=("behind you", "with you")),
               Word(name="against", also=("against you",)), Word(name="across")),
        says="wind as the player feels it at this end; it turns at each change of ends",
        question="Which way does the wind blow for the player?", ordinary="none",
    ),
    Trait(
        name="wind strength", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.KMH, low=0.0, high=120.0,
        ordered=True,
        words=(Word(name="light", high=15.0), Word(name="fresh", low=15.0, high=25.0),
               Word(name="strong", low=25.0)),
        says="how hard it blows", by_eye="Strong wind moves a ball in the hand.",
        question="How hard does it blow?", ordinary="light",
    ),
    Trait(
        name="stage", role=Role.FACT, kind=Kind.WORDS,
        words=_words("red", "orange", "green", "full court"),
        says="court and ball the player trains with", question="Which court and ball?",
        ordinary="full court",
    ),
    Trait(
        name="format", role=Role.FACT, kind=Kind.WORDS, words=_words("singles", "doubles"),
        says="singles or doubles", question="Singles or doubles?", ordinary="singles",
    ),
    Trait(
        name="level", role=Role.FACT, kind=Kind.WORDS, ordered=True,
        words=_words("beginner", "improver", "club", "competitive", "performance"),
        says="playing level; margins scale with it", question="At which level?",
        ordinary="club",
    ),
    Trait(
        name="stature", role=Role.FACT, kind=Kind.NUMBER, unit=Unit.METRE, low=0.8, high=2.3,
        says="the player's height; ties body height to contact height",
        question="How tall is the player?", ordinary="1.75",
    ),
    Trait(
        name="restricted today", role=Role.FACT, kind=Kind.WORDS, words=_words("no", "yes"),
        says="pain or a restriction today: effort is then not graded",
        question="Is anything hurting or restricted today?", ordinary="no", unset="no",
    ),
)  # fmt: skip
