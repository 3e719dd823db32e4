"""Every usable published or worked figure about the flight, the bounce and the launch."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

from tests.flight.measures import MEASURES

FOLDER = Path(__file__).parent.parent / "cases" / "flights"
FILES = (
    "vacuum",
    "air",
    "conditions",
    "anchors",
    "serve",
    "groundstroke",
    "bounce",
    "windows",
    "stages",
)
CASES = [
    pytest.param(case, id=f"{name}: {case['name']}")
    for name in FILES
    for case in yaml.safe_load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))
]


@pytest.mark.parametrize("case", CASES)
def test_a_worked_figure_comes_out_within_its_tolerance(case: dict[str, Any]):
    measured = np.ravel(MEASURES[case["measure"]](case["given"]))

    assert case["source"]
    assert measured == pytest.approx(np.ravel(case["published"]), abs=case["tolerance"])


def test_every_measure_is_asked_for_by_some_case():
    asked = {case.values[0]["measure"] for case in CASES}

    assert set(MEASURES) == asked
