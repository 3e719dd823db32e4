"""Questions of a quiz written by hand, so that screens do not change with the generator."""

from dataclasses import dataclass

from tactics.model.choice import Choice
from tactics.model.known import number, word
from tactics.model.scenario import Ask, Flip, Option, Origin, Scenario
from tactics.model.situation import Situation
from tactics.model.verdict import Grade

WIDE = Situation.of(
    {
        "game situation": word("baseline rally"),
        "wing": word("forehand"),
        "body height": number(0.9),
        "contact height": number(1.57),
        "court depth": number(13.4),
        "court width": number(4.6),
        "incoming depth": number(9.6),
        "incoming direction": word("crosscourt"),
        "opponent depth": number(12.1),
        "opponent width": number(0.4),
        "balance": word("moving"),
        "own hand": word("right"),
        "opponent hand": word("right"),
    }
)
SERVE = Situation.of(
    {
        "game situation": word("serving"),
        "serve side": word("deuce"),
        "serve number": word("first"),
        "court depth": number(12.0),
        "court width": number(0.9),
        "opponent depth": number(12.6),
        "opponent width": number(-3.2),
        "own hand": word("left"),
        "opponent hand": word("right"),
    }
)
FACTS = (
    "Baseline rally, both players back; a deep ball, met on the forehand, at shoulder height; "
    "you are moving, behind the baseline, wide on the forehand side; the opponent is on the "
    "baseline, in the middle third."
)
BECAUSE = "A high ball is longer in the air, and that time pays for the run back."
FLIP = (
    "Change one thing: court width middle third instead of wide forehand, and "
    '"Build, crosscourt, 0.5 m over the net" becomes the sound answer.'
)
CUE = "Far out, go up"
AIM = (
    ("direction", word("crosscourt")),
    ("height over net", number(2.0)),
    ("inside line", number(1.5)),
    ("depth", number(10.0)),
)


def option(text: str, grade: Grade, **parts: object) -> Option:
    """Return an option with parts given as words or numbers."""
    known = {
        part.replace("_", " "): word(value) if isinstance(value, str) else number(float(str(value)))
        for part, value in parts.items()
    }
    origin = Origin.ADVISED if grade is Grade.SOUND else Origin.VARIATION
    return Option(
        text=text, grade=grade, origin=origin, choice=Choice.of(known), rules=("wide-go-high",)
    )


SHOT = Scenario(
    ask=Ask.SHOT,
    situation=WIDE,
    told=("game situation", "balance"),
    context=Choice(),
    prompt="Which shot would you play?",
    facts=FACTS,
    options=(
        option("Force, straight, 0.3 m over the net", Grade.UNSOUND, direction="straight"),
        option("Buy time, crosscourt, 2.0 m over the net", Grade.SOUND, direction="crosscourt"),
        option("Build, crosscourt, 0.5 m over the net", Grade.DOUBTFUL, direction="crosscourt"),
    ),
    sound=1,
    rule="wide-go-high",
    revision="one",
    because=BECAUSE,
    neighbour="outside-ball-crosscourt",
    cue=CUE,
    aim=AIM,
    flip=Flip(
        fact="court width",
        was=number(4.6),
        now=number(1.0),
        sound=2,
        grades=(Grade.UNSOUND, Grade.DOUBTFUL, Grade.SOUND),
        rule="outside-ball-crosscourt",
        revision="one",
        situation=WIDE.with_facts({"court width": number(1.0)}),
        facts=FACTS.replace("wide on the forehand side", "in the middle third"),
        because="From the middle there is time to build.",
        said=FLIP,
        cue="Same road back",
    ),
    seed="hand-made",
    number=0,
)
HEIGHT = Scenario(
    ask=Ask.HEIGHT,
    situation=WIDE,
    told=("game situation",),
    context=Choice(),
    prompt="You go crosscourt to buy time. How high over the net?",
    facts=FACTS,
    options=(
        option("2.0 m over the net", Grade.SOUND, height_over_net=2.0),
        option("0.3 m over the net", Grade.UNSOUND, height_over_net=0.3),
        option("0.8 m over the net", Grade.DOUBTFUL, height_over_net=0.8),
    ),
    sound=0,
    rule="wide-go-high",
    revision="one",
    because=BECAUSE,
    aim=AIM,
    seed="hand-made",
    number=1,
)
WHERE = Scenario(
    ask=Ask.AIM,
    situation=WIDE,
    told=("game situation",),
    context=Choice(),
    prompt="You take it with a forehand. Where do you aim?",
    facts=FACTS,
    options=(
        option("Straight, 0.3 m inside the line", Grade.UNSOUND, direction="straight"),
        option("To the middle, 2.0 m inside the line", Grade.DOUBTFUL, direction="middle"),
        option("Crosscourt, 1.5 m inside the line", Grade.SOUND, direction="crosscourt"),
    ),
    sound=2,
    rule="wide-go-high",
    revision="one",
    because=BECAUSE,
    aim=AIM,
    seed="hand-made",
    number=2,
)
TO_SERVE = Scenario(
    ask=Ask.SERVE,
    situation=SERVE,
    told=("game situation", "own hand", "opponent hand"),
    context=Choice(),
    prompt="Which serve would you hit?",
    facts="Serving; first serve, deuce side. Also: own hand left, opponent hand right.",
    options=(
        option("Out wide, 70 % pace", Grade.DOUBTFUL, direction="wide"),
        option("Down the T, 75 % pace", Grade.SOUND, direction="T"),
        option("At the body, 95 % pace", Grade.UNSOUND, direction="at body"),
    ),
    sound=1,
    rule="serve-to-the-backhand",
    revision="one",
    because="A left-hander finds the backhand down the T from this side.",
    aim=(("direction", word("T")),),
    note="We tried this on Tuesday.",
    seed="hand-made",
    number=3,
)
ALL = (SHOT, HEIGHT, WHERE, TO_SERVE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What is said to an answer, written by hand."""

    heading: str = "Doubtful. Another answer keeps the rule."
    lines: tuple[tuple[str, str, bool, bool], ...] = (
        ("unsound", "Force, straight, 0.3 m over the net", False, False),
        ("sound", "Buy time, crosscourt, 2.0 m over the net", False, True),
        ("doubtful", "Build, crosscourt, 0.5 m over the net", True, False),
    )
    why: str = BECAUSE
    flip: str = FLIP
    then: str = "IF you are pulled wide with the opponent back THEN I lift it high and crosscourt."
    cue: str = CUE
