"""What a chart also holds: who, when and which ball; what became of it; the coach's own mark."""

from tactics.model.trait import Kind, Role, Trait, Word

LABELS: tuple[Trait, ...] = (
    Trait(name="date", role=Role.LABEL, kind=Kind.DATE, says="day of the lesson, 2026-03-14"),
    Trait(name="player", role=Role.LABEL, kind=Kind.TEXT,
          says="a nickname or initials, never a full name"),
    Trait(name="lesson", role=Role.LABEL, kind=Kind.TEXT, also=("match", "session"),
          says="which lesson or match of that day"),
    Trait(name="point", role=Role.LABEL, kind=Kind.TEXT, says="number of the point"),
    Trait(name="ball", role=Role.LABEL, kind=Kind.TEXT, also=("ball number",),
          says="number of the ball in its point"),
    Trait(name="note", role=Role.LABEL, kind=Kind.TEXT, says="a few words of the coach"),
)  # fmt: skip

CAUSE_WORDS = (
    Word(name="read", mark="did not see what was coming"),
    Word(name="position", mark="feet were late or in the wrong place"),
    Word(name="decide", mark="saw it, was there, chose the wrong shot"),
    Word(name="execute", mark="right choice, the stroke failed"),
    Word(name="effort", mark="did not try, or stopped"),
    Word(name="physical", mark="tired, hurt or outpaced"),
    Word(name="unlucky", mark="net cord, bad bounce, gust"),
)

OUTCOMES: tuple[Trait, ...] = (
    Trait(
        name="landed", role=Role.OUTCOME, kind=Kind.WORDS,
        words=(Word(name="in"), Word(name="net"), Word(name="long"), Word(name="wide"),
               Word(name="long and wide"), Word(name="not touched", also=("no touch",)),
               Word(name="no stroke")),
        says="where the ball went", question="Where did the ball go?", quick=True,
    ),
    Trait(
        name="as intended", role=Role.OUTCOME, kind=Kind.WORDS, also=("executed",),
        words=(Word(name="yes"), Word(name="no"), Word(name="unsure")),
        says="whether the ball did what the player wanted, apart from whether it was wise",
        question="Did the ball do what was wanted?", quick=True,
    ),
    Trait(
        name="ending", role=Role.OUTCOME, kind=Kind.WORDS,
        words=(Word(name="went on"), Word(name="ace"), Word(name="unreturned serve"),
               Word(name="double fault"), Word(name="winner"), Word(name="forced error"),
               Word(name="unforced error"), Word(name="let"), Word(name="unsure")),
        says="how the point ended with the player's own ball, or that it went on",
        question="Did the point end here, and how?",
    ),
    Trait(
        name="quality", role=Role.OUTCOME, kind=Kind.WORDS,
        words=(Word(name="hurts"), Word(name="neutral"), Word(name="sits up")),
        says="what the ball did to the opponent", question="What did it do to the opponent?",
    ),
    Trait(
        name="point won", role=Role.OUTCOME, kind=Kind.WORDS,
        words=(Word(name="yes", also=("won",)), Word(name="no", also=("lost",))),
        says="whether the player won the point", question="Was the point won?",
    ),
    Trait(
        name="disturbed", role=Role.OUTCOME, kind=Kind.WORDS, unset="no",
        words=(Word(name="no"), Word(name="net cord"), Word(name="bad bounce"),
               Word(name="gust"), Word(name="let")),
        says="something outside the player's hands; such a ball is not counted as executed or not",
        question="Did anything disturb the ball?",
    ),
    Trait(
        name="cause", role=Role.OUTCOME, kind=Kind.WORDS, words=CAUSE_WORDS,
        says="what the coach puts a bad ball down to", question="What was behind it?",
    ),
    Trait(
        name="coach's mark", role=Role.OUTCOME, kind=Kind.WORDS, also=("mark", "coach mark"),
        words=(Word(name="sound"), Word(name="acceptable"), Word(name="doubtful"),
               Word(name="unsound")),
        says="the coach's own grade of the choice; never overwritten",
        question="How would you grade the choice yourself?",
    ),
)  # fmt: skip
