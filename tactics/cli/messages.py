"""Problems on the screen, in the three formats."""

import json
import sys
from collections.abc import Sequence
from typing import TextIO

from tactics.problem import Problem
from tactics.source import Source

FORMATS = ("text", "short", "json")


def show_problems(
    problems: Sequence[Problem],
    sources: Sequence[Source],
    stream: TextIO | None = None,
    style: str = "text",
) -> None:
    """Print problems; nothing where there are none, except in JSON, which is always a document."""
    from tactics.report.problems import as_dict, render_problems, render_short

    out = sys.stderr if stream is None else stream
    if style == "json":
        text = json.dumps(
            {"problems": [as_dict(problem) for problem in problems]}, ensure_ascii=False, indent=2
        )
    elif style == "short":
        text = render_short(problems)
    else:
        text = render_problems(problems, sources)
    if text.strip():
        print(text.rstrip("\n"), file=out)
