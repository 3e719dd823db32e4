"""What YAML stumbled over -> the mistake a coach made, with the repair where there is one."""

import re

from tactics.problem import Problem
from tactics.reading.stumble import Line, Trouble, unclear
from tactics.reading.stumble_brackets import brackets, nothing_here
from tactics.reading.stumble_colons import colon, simple_key
from tactics.reading.stumble_lines import first_line_set_in, list_behind_name, not_lined_up
from tactics.reading.stumble_quotes import (
    backslash,
    behind_quote,
    missing_quote,
    quotes_needed,
    unclosed_quote,
)
from tactics.reading.word_slips import bullet_slip
from tactics.source import Source


def explain(source: Source, trouble: Trouble) -> Problem:
    """Return the problem behind a stumble, in a coach's words."""
    if trouble.long_quote is not None:
        return missing_quote(source, trouble.long_quote)
    for pattern, make in _STUMBLES:
        if pattern.search(f"{trouble.context}: {trouble.problem}"):
            problem = make(source, trouble)
            return bullet_slip(Line(source, problem.span.line, 1)) or problem
    return unclear(source, trouble)


_STUMBLES = tuple(
    (re.compile(pattern), make)
    for pattern, make in (
        (r"document start", first_line_set_in),
        (r"escape|hexa?decimal", backslash),
        (r"quoted scalar", unclosed_quote),
        (r"mapping values are not allowed", colon),
        (r"mapping keys are not allowed", behind_quote),
        (r"could not find expected ':'", simple_key),
        (r"cannot start any token|scanning an? (alias|anchor|tag)|block scalar", quotes_needed),
        (r"sequence entries are not allowed", list_behind_name),
        (r"flow (mapping|sequence)", brackets),
        (r"node content", nothing_here),
        (r"block (mapping|collection|sequence)", not_lined_up),
    )
)
