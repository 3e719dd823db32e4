"""A small rule set to start from: its comments teach, and it passes `check` as it stands."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap

from tactics.model.names import slug
from tactics.report.layout import counted

_ROOM = 92
BASE = "singles-club"
STARTER = """\
# A rule set of your own. It builds on {base}, which comes with the program, and changes
# three things about it: one rule is replaced, one is dropped, one is new. Change these to what
# you teach, and take out what you do not need. Lines that start with # are notes for you.
#
#   tactics check {file}       every mistake at once, and every example run
#   tactics rules {file}       all rules as a page to read or to hand out
#   tactics explain words      every fact, part and word you can use
#
# For help while you type, run this once and let your editor know the file it writes:
#   tactics schema --for {file} -o {stem}.schema.json

rule set: {name}
author: write your name here

# Everything from these sets counts, unless a rule below has the same id.
builds on: [{base}]

# Facts of your own, beside those the program knows. Charts and quizzes learn them too.
facts:
  sun:
    words:                      # a word, and how you judge it by eye
      elsewhere: nobody has to squint
      in our eyes: a high ball comes out of the sun
      in their eyes: a high ball of ours goes into the sun
    says: where the sun stands for a ball above the head
    question: Where is the sun?
    ordinary: elsewhere         # the word that an everyday ball has

rules:

  # 1. The same id replaces a rule. `advise` is what a choice is graded by; `aim` is what you tell
  #    the player to try for, and nobody is graded by it. Here only the aim and the cue are new.
  rally-with-air:
    title: A neutral ball has air under it and something left in the arm
    concern: court position     # its place in the precedence of {base}
    strength: should            # must, should or may
    when:                       # all of these lines have to hold; the words are explained by
      opponent back: yes        # `tactics explain at the back`, for example
      at the back: yes
      neutral: yes
    advise:
      height over net: at least 0.3 m
      inside line: at least 0.8 m
      pace: less than 85 %
    aim:
      intent: build
      direction: crosscourt
      depth: deep
      height over net: 1.5 m    # two rackets over the net for this group, not one and a half
      inside line: 1.5 m
      pace: 65 %
    because: This group still misses more into the net than long.
    cue: Two rackets over
    drills: [diagonal-ladder, deep-bank]
    evidence: practice
    examples:                   # small tests: the whole set has to give these grades
      - given: {{game situation: baseline rally, court depth: on baseline, balance: set}}
        choose: {{direction: crosscourt, height over net: 1.5 m, inside line: 1.5 m, pace: 65 %}}
        grade: sound
      - given: {{game situation: baseline rally, court depth: on baseline, balance: set}}
        choose: {{direction: crosscourt, height over net: 0.1 m, pace: 95 %}}
        grade: doubtful

  # 2. `off` drops a rule. Nobody in this group follows the serve in.
  serve-and-volley-sometimes: off

  # 3. A rule of your own, with your own fact. Ids are small words joined by hyphens.
  sun-in-our-eyes-no-smash:
    title: With the sun in your eyes, a smash waits
    concern: conditions
    strength: should
    when:
      sun: in our eyes
      body height: overhead
    unless:                     # any of these silences the rule
      - restricted today: yes
    advise:
      stroke: not smash
    aim:
      stroke: forehand
    because: Whoever loses the ball in the sun hits it with the frame, or not at all.
    cue: Sun up there? Let it bounce
    evidence: practice
    examples:                   # facts that are left open are those of an ordinary ball
      - given: {{game situation: approaching or at net, court depth: midcourt, balance: set}}
        choose: {{stroke: smash, direction: straight, pace: 80 %}}
        grade: doubtful
      - given: {{game situation: approaching or at net, sun: elsewhere, balance: set}}
        choose: {{stroke: smash, direction: straight, inside line: 1.5 m, pace: 80 %}}
        grade: sound
"""
_FROM = """
  # -----------------------------------------------------------------------------------------
  # What is met most in {source}. Each block is a rule to finish: take the single # away from
  # its lines (those with two are notes), and write what you teach.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Skeleton:
    """A situation that is met often, as a rule to be finished.

    says: the situation in a sentence; asked: (part, what the rules ask for there already).
    """

    facts: tuple[tuple[str, str], ...]
    count: int
    of: int
    says: str
    asked: tuple[tuple[str, str], ...]


def starter_text(file: str, name: str, source: str = "", skeletons: Sequence[Skeleton] = ()) -> str:
    """Return the text of a rule set to start from, with the situations of a chart behind it."""
    stem = file.removesuffix(".yaml")
    text = STARTER.format(base=BASE, file=file, stem=stem, name=name)
    if not skeletons:
        return text
    lines = [line for each in skeletons for line in ("", *_skeleton_lines(each))]
    return text + _FROM.format(source=source) + "\n".join(lines) + "\n"


def _skeleton_lines(skeleton: Skeleton) -> Iterator[str]:
    seen = f"Met on {skeleton.count} of {counted(skeleton.of, 'ball')}: {skeleton.says}"
    yield from _comment(seen)
    if skeleton.asked:
        yield from _comment("What the rules ask there already:")
    for part, asked in skeleton.asked:
        yield from _comment(f"- {part}: {asked}")
    rule_id = "-".join(slug(word) for _, word in skeleton.facts)
    yield from (f"  # {line}".rstrip() for line in _rule_lines(rule_id, skeleton.facts))


def _rule_lines(rule_id: str, facts: Sequence[tuple[str, str]]) -> Iterator[str]:
    yield f"{rule_id}:"
    yield "  title: what to do here, in a few words"
    yield "  concern: pattern"
    yield "  strength: should"
    yield "  when:"
    yield from (f"    {fact}: {word}" for fact, word in facts)
    yield "  advise:"
    yield "    direction: crosscourt" if facts[0][1] != "serving" else "    direction: [wide, T]"
    yield "  because: why it is so"
    yield "  cue: a few words for the court"


def _comment(text: str) -> Iterator[str]:
    for line in wrap(text, _ROOM, break_on_hyphens=False):
        yield f"  ## {line}"
