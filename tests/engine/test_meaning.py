"""What the rules that apply make of a choice together, one statement at a time."""

import pytest

from tactics.engine.audit import audit
from tactics.model.ball import Ball, Chart
from tactics.model.choice import Choice, Outcome
from tactics.model.situation import Situation
from tactics.model.verdict import Grade, Reason
from tactics.source import Span
from tests.engine.small_sets import (
    advice,
    advisor,
    finding,
    grades,
    ids,
    value,
    verdict,
)

SOUND, ACCEPTABLE = Grade.SOUND, Grade.ACCEPTABLE
DOUBTFUL, UNSOUND, UNDECIDED = Grade.DOUBTFUL, Grade.UNSOUND, Grade.UNDECIDED


class TestConcerns:
    club = advisor("""
        lift-it: {concern: feasibility, strength: should, when: {balance: stretched},
                  advise: {height over net: at least 1.3 m}}
        keep-it-low: {concern: pattern, strength: must,
                      advise: {height over net: at most 0.7 m, direction: crosscourt}}
    """)

    def test_the_highest_concern_decides_a_part(self) -> None:
        found = grades(self.club, "height over net: 1.5 m", "balance: stretched")

        assert found == {"height over net": SOUND}

    def test_a_lower_concern_cannot_be_broken_where_it_is_overruled(self) -> None:
        broken = finding(self.club, "height over net", "height over net: 1 m", "balance: stretched")

        assert (broken.grade, broken.rules) == (DOUBTFUL, ("lift-it",))

    def test_a_lower_concern_is_overruled_for_that_part_only(self) -> None:
        found = grades(
            self.club, "height over net: 1.5 m; direction: straight", "balance: stretched"
        )

        assert found == {"height over net": SOUND, "direction": UNSOUND}

    def test_an_overruled_rule_is_listed_as_such(self) -> None:
        ruling = advice(self.club, "balance: stretched").standards

        assert ids(self.club, ruling["height over net"].overruled) == {"keep-it-low"}
        assert ruling["direction"].overruled == ()

    def test_a_concern_that_is_silent_overrules_nobody(self) -> None:
        assert grades(self.club, "height over net: 1.5 m", "balance: set") == {
            "height over net": UNSOUND
        }


class TestMustsAndShoulds:
    @pytest.mark.parametrize(
        ("height", "grade"), [("0.5 m", UNSOUND), ("1 m", SOUND), ("2.5 m", UNSOUND)]
    )
    def test_all_musts_of_the_deciding_concern_have_to_be_kept(
        self, height: str, grade: Grade
    ) -> None:
        club = advisor("""
            over-it: {concern: feasibility, strength: must,
                      advise: {height over net: at least 0.7 m}}
            not-too-high: {concern: feasibility, strength: must,
                           advise: {height over net: at most 2 m}}
        """)

        assert verdict(club, f"height over net: {height}").grade is grade

    narrowing = advisor("""
        no-risk: {concern: feasibility, strength: must, advise: {intent: [build, neutralise]}}
        press: {concern: feasibility, strength: should, advise: {intent: [build, force]}}
    """)

    @pytest.mark.parametrize(
        ("intent", "grade", "charged"),
        [
            ("build", SOUND, ("no-risk", "press")),
            ("neutralise", DOUBTFUL, ("press",)),
            ("force", UNSOUND, ("no-risk",)),
            ("finish", UNSOUND, ("no-risk", "press")),
        ],
    )
    def test_shoulds_narrow_what_the_musts_leave(
        self, intent: str, grade: Grade, charged: tuple[str, ...]
    ) -> None:
        found = finding(self.narrowing, "intent", f"intent: {intent}")

        assert (found.grade, found.rules) == (grade, charged)

    def test_what_is_wanted_is_what_both_leave(self) -> None:
        assert finding(self.narrowing, "intent", "intent: force").wanted == value("intent", "build")

    yielding = advisor("""
        long-road: {concern: feasibility, strength: must, advise: {direction: crosscourt}}
        turn-it: {concern: feasibility, strength: should, advise: {direction: straight}}
    """)

    def test_a_should_that_no_must_keeping_answer_can_keep_yields(self) -> None:
        assert verdict(self.yielding, "direction: crosscourt").grade is SOUND

    def test_a_should_that_yields_is_listed_and_charges_nobody(self) -> None:
        ruling = advice(self.yielding).standards["direction"]

        assert ids(self.yielding, ruling.yielded) == {"turn-it"}
        assert finding(self.yielding, "direction", "direction: middle").rules == ("long-road",)

    def test_a_must_is_explained_before_a_should(self) -> None:
        club = advisor("""
            a-should: {concern: feasibility, strength: should, advise: {intent: build}}
            z-must: {concern: feasibility, strength: must, advise: {intent: not finish}}
        """)

        judged = verdict(club, "intent: finish")

        assert judged.charged == ("a-should", "z-must")
        assert judged.deciding == "z-must"

    def test_the_worst_finding_is_explained_first(self) -> None:
        club = advisor("""
            soft: {concern: feasibility, strength: should, advise: {pace: at most 70 %}}
            spin-it: {concern: pattern, strength: must, advise: {spin: not flat}}
        """)

        assert verdict(club, "pace: 90 %; spin: flat").deciding == "spin-it"

    @pytest.mark.parametrize(
        ("pace", "spin", "grade"),
        [
            ("60 %", "top", SOUND),
            ("90 %", "top", DOUBTFUL),
            ("60 %", "flat", UNSOUND),
            ("90 %", "flat", UNSOUND),
        ],
    )
    def test_the_grade_is_the_worst_finding(self, pace: str, spin: str, grade: Grade) -> None:
        club = advisor("""
            soft: {concern: feasibility, strength: should, advise: {pace: at most 70 %}}
            spin-it: {concern: pattern, strength: must, advise: {spin: not flat}}
        """)

        assert verdict(club, f"pace: {pace}; spin: {spin}").grade is grade

    def test_an_aim_is_never_graded(self) -> None:
        club = advisor("""
            lift-it: {concern: feasibility, strength: must,
                      advise: {height over net: at least 1 m},
                      aim: {height over net: 2 m, direction: crosscourt}}
        """)

        assert grades(club, "height over net: 1 m; direction: straight") == {
            "height over net": SOUND
        }


class TestConflicts:
    shoulds = advisor("""
        across: {concern: pattern, strength: should, advise: {direction: crosscourt}}
        along: {concern: pattern, strength: should, advise: {direction: straight}}
    """)

    @pytest.mark.parametrize("direction", ["crosscourt", "straight", "middle"])
    def test_two_shoulds_without_a_common_answer_leave_the_part_undecided(
        self, direction: str
    ) -> None:
        judged = verdict(self.shoulds, f"direction: {direction}")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.CONFLICT)

    def test_both_rules_of_a_conflict_are_named(self) -> None:
        assert verdict(self.shoulds, "direction: middle").clashing == ("across", "along")

    def test_a_conflict_about_one_part_leaves_the_others_alone(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: should, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: should,
                    advise: {direction: straight, pace: at most 70 %}}
        """)

        assert grades(club, "direction: middle; pace: 60 %") == {
            "direction": UNDECIDED,
            "pace": SOUND,
        }

    def test_a_broken_must_elsewhere_outweighs_a_conflict(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: should, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: should, advise: {direction: straight}}
            soft: {concern: pattern, strength: must, advise: {pace: at most 70 %}}
        """)

        judged = verdict(club, "direction: middle; pace: 90 %")

        assert judged.grade is UNSOUND
        assert judged.deciding == "soft"

    def test_a_conflict_that_nothing_unseen_could_settle_names_no_fact(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: should, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: should, advise: {direction: straight}}
            not-behind: {concern: pattern, strength: should, when: {balance: set},
                         advise: {direction: [crosscourt, straight]}}
        """)

        judged = verdict(club, "direction: straight")

        assert (judged.reason, judged.missing) == (Reason.CONFLICT, ())

    def test_two_musts_without_a_common_answer_are_a_conflict_too(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: must, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: must, advise: {direction: straight}}
        """)

        judged = verdict(club, "direction: crosscourt")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.CONFLICT)
        assert judged.clashing == ("across", "along")

    def test_a_broken_must_is_unsound_though_the_shoulds_below_it_clash(self) -> None:
        club = advisor("""
            not-behind: {concern: pattern, strength: must,
                         advise: {direction: [crosscourt, straight]}}
            across: {concern: pattern, strength: should, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: should, advise: {direction: straight}}
        """)

        assert verdict(club, "direction: middle").grade is UNSOUND
        assert verdict(club, "direction: straight").grade is UNDECIDED

    def test_rules_of_different_concerns_never_clash(self) -> None:
        club = advisor("""
            across: {concern: court position, strength: should, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: must, advise: {direction: straight}}
        """)

        assert verdict(club, "direction: crosscourt").grade is SOUND


class TestOutcome:
    def test_the_outcome_of_a_ball_is_not_looked_at(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: must, advise: {direction: crosscourt}}
        """)
        balls = tuple(
            Ball(
                situation=Situation(),
                choice=Choice.of({"direction": value("direction", "straight")}),
                outcome=Outcome(landed=landed, ending=ending),
                span=Span(file="chart", line=1),
            )
            for landed, ending in [("in", "winner"), ("net", "unforced error")]
        )

        judged = audit([Chart(name="chart", balls=balls)], club).judged

        assert [each.verdict.grade for each in judged] == [UNSOUND, UNSOUND]
