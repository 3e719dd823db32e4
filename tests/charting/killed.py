"""Charts balls in process after process and kills each in the middle: is what was promised there?

Run as a script with a folder and a number of kills; prints: kills, balls acknowledged, lost, and
files that are no chart. Processes are forked from this one, which has loaded everything.
"""

import os
import random
import select
import signal
import sys
import time
from dataclasses import replace
from pathlib import Path

from tactics.charting.entry import Append, Replace
from tactics.cli.chart_file import ChartFile, open_chart
from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.known import word
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.reading.charts import read_chart_bytes
from tactics.source import Span

LONGEST_S = 0.1
KILLS_A_FILE = 10


def ball(note: str) -> Ball:
    return Ball(
        situation=Situation.of({"game situation": word("baseline rally")}),
        choice=Choice.of({"direction": word("crosscourt")}),
        player="Wren",
        note=note,
        span=Span(file="", line=1),
    )


def chart(path: Path, run: int, pipe: int) -> None:
    """Chart for ever, correcting now and then, and say each ball once it is promised."""
    file = open_chart(path, STANDARD)
    assert isinstance(file, ChartFile)
    place = len(file.balls)
    took = 0
    while True:
        took += 1
        note = f"ball-{run}-{took}"
        file.save(Append(ball=ball(note)))
        os.write(pipe, f"{note}\n".encode())
        if took % 7 == 0:  # the whole file is written anew
            file.save(Replace(place=place, ball=replace(ball(note), player="Lark")))
        place += 1


def killed(path: Path, run: int) -> set[str]:
    """Start somebody charting, kill the process, and return what it had acknowledged."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            chart(path, run, writing)
        finally:
            os._exit(1)
    os.close(writing)
    time.sleep(random.uniform(0.005, LONGEST_S))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    said = b""
    while select.select([reading], [], [])[0] and (more := os.read(reading, 65536)):
        said += more
    os.close(reading)
    return set(said.decode().split())


def main(folder: Path, kills: int) -> None:
    random.seed(5)
    acknowledged = lost = damaged = 0
    for number in range(kills // KILLS_A_FILE):
        path = folder / f"lesson-{number}.csv"
        promised: set[str] = set()
        for run in range(KILLS_A_FILE):
            promised |= killed(path, run)
        read = read_chart_bytes(path.name, path.read_bytes(), STANDARD)
        notes = {each.note for each in read.value.balls} if read.value else set()
        acknowledged += len(promised)
        lost += len(promised - notes)
        damaged += read.value is None
    print(f"{kills} kills, {acknowledged} balls acknowledged, {lost} lost, {damaged} damaged")


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
