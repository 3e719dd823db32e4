"""The schema for editors: it lets every good rule file through and stops spoilt ones."""

import json
import re
from functools import cache
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from jsonschema.exceptions import best_match

from tactics.cli.main import Exit, safely
from tactics.cli.rule_files import load_drills, load_rules
from tactics.model.names import fold
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Trait
from tactics.reading.complaint import Complaint
from tactics.reading.values import allowed
from tactics.report.json_schema import drill_file_schema, rule_file_schema
from tactics.report.json_schema_values import asked_of, spelt
from tests.golden import CASES, Golden

ROOT = Path(__file__).parents[2]
RULE_FILES = sorted((ROOT / "rules").glob("*.yaml"))
DRILL_FILES = sorted((ROOT / "rules" / "drills").glob("*.yaml"))
FULL = (CASES / "schema" / "full.yaml").read_text("utf-8")
GOOD = {
    "full": FULL,
    "rule page": (CASES / "rule_pages" / "club.yaml").read_text("utf-8"),
    "mixes": (CASES / "mixes" / "serves.yaml").read_text("utf-8"),
    "mixes above": (CASES / "mixes" / "replaces-and-drops.yaml").read_text("utf-8"),
    "starter": (CASES / "starter" / "wednesday-group.yaml").read_text("utf-8"),
}
LOW, ROADS = "rules/low-ball-long-road/", "mixes/every-road-open/"
TRAITS = [*STANDARD.facts, *STANDARD.parts]


class NewerYaml(yaml.SafeLoader):
    """Guesses as YAML 1.2 does: only true and false are truths, and times are texts."""


NewerYaml.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in pairs if not tag.endswith((":bool", ":timestamp"))]
    for first, pairs in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
NewerYaml.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("true|false"), list("tf"))
LOADERS = {"older YAML": yaml.SafeLoader, "newer YAML": NewerYaml}


@cache
def checker(name: str = "") -> Draft202012Validator:
    rules = load_rules([name], with_drills=False).reading.value if name else None
    return Draft202012Validator(rule_file_schema(rules, load_drills()))


def stopped_at(validator: Draft202012Validator, text: str, loader: type = NewerYaml) -> list[str]:
    """Return the places at which the schema stops a text."""
    document = yaml.load(text, Loader=loader)
    return sorted(
        "/".join(map(str, error.absolute_path)) for error in validator.iter_errors(document)
    )


@pytest.mark.parametrize("loader", LOADERS.values(), ids=LOADERS.keys())
@pytest.mark.parametrize("path", RULE_FILES, ids=lambda path: path.stem)
def test_shipped_rule_sets_pass(path: Path, loader: type) -> None:
    assert stopped_at(checker(), path.read_text("utf-8"), loader) == []
    assert stopped_at(checker(str(path)), path.read_text("utf-8"), loader) == []


@pytest.mark.parametrize("loader", LOADERS.values(), ids=LOADERS.keys())
@pytest.mark.parametrize("text", GOOD.values(), ids=GOOD.keys())
def test_files_that_use_the_whole_format_pass(text: str, loader: type) -> None:
    assert stopped_at(checker(), text, loader) == []


@pytest.mark.parametrize("path", DRILL_FILES, ids=lambda path: path.stem)
def test_shipped_drill_files_pass(path: Path) -> None:
    validator = Draft202012Validator(drill_file_schema())

    assert stopped_at(validator, path.read_text("utf-8")) == []
    assert stopped_at(validator, "drills: {bad: {title: X, minutes: none}}") != []


@pytest.mark.parametrize(
    "schema",
    [rule_file_schema(), drill_file_schema()],
    ids=["rules", "drills"],
)
def test_a_schema_is_one_of_its_dialect(schema: dict[str, object]) -> None:
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize(
    ("good", "bad", "place"),
    [
        ("strength: should", "strength: shall", LOW + "strength"),
        ("strength: should\n", "strenght: should\n", "rules/low-ball-long-road"),
        ("[below knee, thigh]", "[below knee, tigh]", LOW + "when/body height/1"),
        ("at least 0.8 m", "at least 0.8 mtr", LOW + "advise/height over net"),
        ("at least 0.8 m", "crosscourt", LOW + "advise/height over net"),
        ("      direction: crosscourt\n", "      wing: forehand\n", LOW + "advise"),
        ("intent: [build, neutralise]", "intent: [build, not]", LOW + "if choosing/intent/1"),
        ("pace: control", "pace: at most 60 %", LOW + "aim/pace"),
        ("    cue: Low ball, long road\n", "", "rules/low-ball-long-road"),
        ("evidence: [court, practice]", "evidence: [court, hope]", LOW + "evidence/1"),
        ("grade: sound", "grade: fine", LOW + "examples/0/grade"),
        ("low-ball-long-road:", "low-ball-2:", "rules"),
        ("unit: m", "unit: feet", "facts/gap to the ball/unit"),
        ("rule set: Wednesday group\n", "", ""),
        ("cue: Low ball, long road", "cue: [Low, ball]", LOW + "cue"),
    ],
    ids=[
        "word", "key", "word of a fact", "unit", "word for a number", "fact for a part", "not what",
        "bound as an aim", "missing cue", "evidence", "grade", "id", "stored unit", "no name",
        "list for a text",
    ],
)  # fmt: skip
def test_a_spoilt_file_is_stopped_at_the_spoilt_place(good: str, bad: str, place: str) -> None:
    assert good in FULL
    spoilt = FULL.replace(good, bad, 1)

    assert place in stopped_at(checker(), spoilt)


@pytest.mark.parametrize(
    ("good", "bad", "place"),
    [
        ("at most: two in three", "at most: 0.66", ROADS + "at most"),
        ("at most: two in three\n", "\n", "mixes/every-road-open"),
        ("at least: 10 first", "at least: 5 first", ROADS + "over at least"),
        ("says: too often", "says: often", ROADS + "examples/0/says"),
        ("{finds: backhand}", "{finds: back}", "mixes/home-is-the-backhand/share of/finds"),
    ],
    ids=["no share", "no limit", "too few", "not a word", "share of what"],
)  # fmt: skip
def test_a_spoilt_mix_is_stopped_at_the_spoilt_place(good: str, bad: str, place: str) -> None:
    assert good in GOOD["mixes"]
    spoilt = GOOD["mixes"].replace(good, bad, 1)

    assert place in stopped_at(checker(), spoilt)


def test_names_of_its_own_are_known_only_for_a_file(tmp_path: Path) -> None:
    path = tmp_path / "club.yaml"
    path.write_text(GOOD["rule page"], encoding="utf-8")
    for_file = checker(str(path))
    misspelt = GOOD["rule page"].replace("pulled wide: yes", "puled wide: yes")
    wrong_word = GOOD["rule page"].replace("{mood today: bright,", "{mood today: brigt,")
    wrong_concern = GOOD["rule page"].replace("concern: pattern", "concern: patern")

    assert stopped_at(for_file, GOOD["rule page"]) == []
    assert stopped_at(checker(), misspelt) == []
    assert stopped_at(for_file, misspelt) == ["rules/wide-go-high/when"]
    assert stopped_at(for_file, wrong_word) == ["rules/wide-go-high/unless/0/mood today"]
    assert stopped_at(for_file, wrong_concern) == ["rules/lefty-serves-wide/concern"]


def test_what_an_editor_shows_of_a_fact(golden: Golden) -> None:
    shown = [asked_of(STANDARD.trait(name)) for name in ("balance", "contact height")]
    said = [{**each, "anyOf": each["anyOf"][:-1]} for each in shown]

    golden("schema/values.json", json.dumps(said, ensure_ascii=False, indent=1) + "\n")


@given(st.sampled_from(TRAITS), st.data())
def test_whatever_the_reader_takes_as_a_value_passes(trait: Trait, data: st.DataObject) -> None:
    names = [name for word in trait.words for name in (word.name, *word.also)]
    pieces = st.sampled_from(
        [*names, "not", "or higher", "or lower", "at least", "at most", "to", "1.3", "2", "-1.5",
         "0.6", "70", "m", "ft", "cm", "%", "steps", "of stature", "km/h", "mph", "s", "x", "6'2\""]
    )  # fmt: skip
    text = " ".join(data.draw(st.lists(pieces, min_size=1, max_size=5)))
    case = data.draw(st.sampled_from([str, str.upper, str.title, lambda s: s.replace(" ", "_")]))
    validator = Draft202012Validator(asked_of(trait))

    taken = not isinstance(allowed(case(text), trait, STANDARD), Complaint)

    if taken:
        assert validator.is_valid(case(text)), best_match(validator.iter_errors(case(text)))


@given(st.sampled_from([t for t in TRAITS if t.kind is Kind.WORDS]), st.text(max_size=12))
def test_a_text_that_is_no_word_is_stopped(trait: Trait, text: str) -> None:
    taken = not isinstance(allowed(text, trait, STANDARD), Complaint)

    assert Draft202012Validator(asked_of(trait)).is_valid(text) == taken


@given(st.sampled_from([t.name for t in TRAITS]), st.data())
def test_a_name_may_be_spelt_in_any_case_and_with_any_joiner(
    name: str, data: st.DataObject
) -> None:
    written = "".join(
        data.draw(st.sampled_from([each.upper(), each.lower()])) if each != " "
        else data.draw(st.sampled_from([" ", "-", "_", "  "]))
        for each in name
    )  # fmt: skip

    assert fold(written) == fold(name)
    assert re.fullmatch(spelt(name), written)


def test_the_command_writes_it_to_the_screen_or_to_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "club.yaml").write_text(GOOD["rule page"], encoding="utf-8")

    on_screen = safely(["schema"]), capsys.readouterr().out
    in_file = safely(["schema", "--for", "club.yaml", "-o", "club.schema.json"])
    drills = safely(["schema", "--drills"]), capsys.readouterr().out

    assert (on_screen[0], in_file, drills[0]) == (Exit.FINE, Exit.FINE, Exit.FINE)
    assert json.loads(on_screen[1])["title"] == "A rule set"
    assert "mood today" in (tmp_path / "club.schema.json").read_text("utf-8")
    assert json.loads(drills[1])["title"] == "A drill file"


def test_a_file_with_a_mistake_in_it_still_gets_its_schema(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    spoilt = GOOD["rule page"].replace("strength: may", "strength: maybe")
    (tmp_path / "club.yaml").write_text(spoilt, encoding="utf-8")
    (tmp_path / "empty.yaml").write_text("", encoding="utf-8")

    with_mistake = safely(["schema", "--for", "club.yaml"]), capsys.readouterr().out
    with_nothing = safely(["schema", "--for", "empty.yaml"]), capsys.readouterr().err

    assert with_mistake[0] == Exit.FINE
    assert "mood today" in with_mistake[1]
    assert with_nothing[0] == Exit.COULD_NOT_RUN
    assert "[empty-file]" in with_nothing[1]
