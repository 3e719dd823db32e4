"""Proofs on the command line: how far they are, and what there is when somebody stops them."""

import sys
import time
from dataclasses import dataclass

from tactics.checks.finding import Finding, Progress
from tactics.checks.prove import prove
from tactics.engine.advisor import Advisor
from tactics.problem import Problem
from tactics.report.proof_remarks import progress_words, remark_of
from tactics.report.proofs import problem_of

_PATIENCE_S = 1.0
_STOPPED = "stopped: this is what was proved so far, and the rest is not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class Proved:
    """What was proved. findings and problems go together one by one.

    remarks: what could not be confirmed or settled, and that it was stopped (is_whole false).
    """

    findings: tuple[Finding, ...]
    problems: tuple[Problem, ...]
    remarks: tuple[str, ...]
    is_whole: bool


def ask_flight(advisor: Advisor) -> tuple[list[Problem], str]:
    """Return what the flight model would rather do, and a remark if somebody stopped it."""
    from tactics.checks.flight_prefers import flight_prefers

    problems: list[Problem] = []
    line = _Line()
    try:
        for look in flight_prefers(advisor):
            line.show(f"flight model: {look.done} of {look.total} aims")
            problems += [] if look.problem is None else [look.problem]
    except KeyboardInterrupt:
        return problems, "stopped: the flight model was not asked about the other aims"
    finally:
        line.clear()
    return problems, ""


def run_proofs(advisor: Advisor, *, deep: bool = True) -> Proved:
    """Return everything that is found about a rule set; Ctrl-C ends it with what is there."""
    findings: list[Finding] = []
    remarks: list[str] = []
    line = _Line()
    try:
        for step in prove(advisor, deep=deep):
            if isinstance(step, Finding):
                findings.append(step)
            elif isinstance(step, Progress):
                line.show(progress_words(step))
            else:
                remarks.append(remark_of(step))
    except KeyboardInterrupt:
        remarks.append(_STOPPED)
    finally:
        line.clear()
    return Proved(
        findings=tuple(findings),
        problems=tuple(problem_of(finding, advisor.rules) for finding in findings),
        remarks=tuple(remarks),
        is_whole=_STOPPED not in remarks,
    )


class _Line:
    """One line on the error stream, written over again; nothing in the first second."""

    def __init__(self) -> None:
        self._start = time.monotonic()
        self._width = 0

    def show(self, text: str) -> None:
        """Show how far a check is."""
        if sys.stderr.isatty() and time.monotonic() - self._start > _PATIENCE_S:
            print(f"\r{text:<{self._width}}", end="", file=sys.stderr, flush=True)
            self._width = len(text)

    def clear(self) -> None:
        """Leave no trace of the line."""
        if self._width:
            print(f"\r{'':<{self._width}}\r", end="", file=sys.stderr, flush=True)
