"""A rule file that uses every line of the format, for tests that spoil it."""

FULL = """\
# everything a rule file can hold
rule set: Wednesday group
author: the Wednesday coaches
about: for players who train twice a week
applies to: {format: singles, stage: [green, full court]}
builds on: []
precedence: [safety, feasibility, court position]
facts:
  gap to the ball:
    unit: m
    from: 0
    to: 12
    bands: {small: less than 2.5 m, medium: 2.5 m to 4 m, large: at least 4 m}
    says: how far the ball was from the racket
    question: How far away was the ball?
    by eye: count the steps
    ordinary: medium
  mood today:
    words:
      bright: talks between points
      flat: looks at the ground
    ordinary: bright
terms:
  pulled wide:
    means: feet outside the singles line
    any:
      - court width: [wide forehand, wide backhand]
      - all: [{steps to the ball: at least 5}, {not: {balance: set}}]
  in trouble: {pulled wide: yes, gap to the ball: medium or higher}
rules:
  low-ball-long-road:
    title: A low ball takes the long road
    concern: court position
    strength: should
    when: {game situation: baseline rally, body height: [below knee, thigh]}
    unless:
      - {in trouble: yes}
      - {restricted today: yes, mood today: not bright}
    if choosing: {intent: [build, neutralise]}
    advise:
      direction: crosscourt
      height over net: at least 0.8 m
      inside line: at least 1.2 scatter
    aim: {height over net: 1 m, inside line: 1.4 m, pace: control}
    alternatives:
      - {direction: middle, depth: deep or higher}
    beats: [sore-today]
    because: The net is lower in the middle and the court is longer.
    usual mistake: {direction: straight, pace: more than 85 %}
    cue: Low ball, long road
    drills: [diagonal-ladder]
    evidence: [court, practice]
    note: "Clay: lift a little more."
    author: Sam
    examples:
      - {given: {balance: set, wing: not seen}, choose: {direction: crosscourt}, grade: sound}
      - given: {balance: set, body height: 0.3 to 0.4}
        choose: {direction: straight, height over net: 1 ft}
        grade: doubtful
  sore-today:
    title: Sore today, play within yourself
    concern: safety
    strength: must
    when: {restricted today: yes}
    advise: {pace: at most 75 %}
    because: A ball hit flat out is not worth a week without tennis.
    cue: Seven out of ten
"""

NAMES = (
    "applies to", "precedence", "feasibility", "bands", "question", "ordinary", "pulled wide",
    "court width", "wide backhand", "steps to the ball", "balance", "title", "concern",
    "court position", "strength", "should", "baseline rally", "body height", "below knee",
    "restricted today", "if choosing", "neutralise", "advise", "direction", "crosscourt",
    "height over net", "scatter", "inside line", "control", "alternatives", "middle", "because",
    "usual mistake", "straight", "drills", "evidence", "practice", "examples", "choose", "grade",
    "doubtful",
)  # fmt: skip
