"""How much memory a task costs; run alone, so that nothing else is in the way.

Usage: python -m tests.engine.memory_growth asking|opening. Prints the growth in KiB.
"""

import gc
import sys
from collections.abc import Callable
from itertools import cycle, islice
from pathlib import Path

from tactics.engine.advise import advise
from tactics.engine.compile import compile_rules
from tactics.engine.durable_engine import DurableEngine
from tests.bench.sixty_rules import situations, sixty_rules

PAGE_KIB = 4
RESIDENT = Path("/proc/self/statm")


def resident_kib() -> int:
    """Return the memory this process holds now."""
    gc.collect()
    return int(RESIDENT.read_text(encoding="ascii").split()[1]) * PAGE_KIB


def growth_kib(task: Callable[[int], None], *, before: int, then: int) -> int:
    """Return by how much memory grows while a task runs `then` times, after a warm-up."""
    task(before)
    at_first = resident_kib()
    task(then)
    return resident_kib() - at_first


def asking() -> int:
    """Ask one advisor with sixty rules 100,000 times what follows from what was seen."""
    advisor = compile_rules(sixty_rules(), "durable")
    some = cycle([advise(advisor, each).leaves for each in situations(500, unseen=0.1)])

    def ask(times: int) -> None:
        for leaves in islice(some, times):
            advisor.engine.infer(leaves)

    return growth_kib(ask, before=10_000, then=100_000)


def opening() -> int:
    """Open a rule set, ask it once and let go of it, 300 times."""
    program = compile_rules(sixty_rules()).program
    leaves = advise(compile_rules(sixty_rules()), situations(1)[0]).leaves

    def open_and_close(times: int) -> None:
        for _ in range(times):
            DurableEngine(program).infer(leaves)

    return growth_kib(open_and_close, before=30, then=300)


if __name__ == "__main__":
    print({"asking": asking, "opening": opening}[sys.argv[1]]())
