"""What is known, what was not seen and what does not exist, one statement at a time."""

import pytest

from tactics.engine.advise import advise
from tactics.engine.judge import judge
from tactics.model.verdict import Grade, Kept, Reason
from tests.engine.small_sets import (
    advice,
    advisor,
    choice,
    grades,
    ids,
    situation,
    verdict,
)

SOUND, ACCEPTABLE = Grade.SOUND, Grade.ACCEPTABLE
DOUBTFUL, UNSOUND, UNDECIDED = Grade.DOUBTFUL, Grade.UNSOUND, Grade.UNDECIDED


class TestChartedBands:
    club = advisor("""
        over-it: {concern: feasibility, strength: should, advise: {height over net: at least 0.5 m}}
        room: {concern: feasibility, strength: should, advise: {inside line: at least 0.9 m}}
    """)

    def test_a_band_that_reaches_into_what_is_allowed_is_sound(self) -> None:
        assert verdict(self.club, "height over net: drive").grade is SOUND

    def test_a_band_wholly_outside_is_not(self) -> None:
        assert verdict(self.club, "height over net: skim").grade is DOUBTFUL

    def test_the_upper_limit_of_a_band_is_not_inside_it(self) -> None:
        assert verdict(self.club, "inside line: near the line").grade is DOUBTFUL


class TestMissingFacts:
    club = advisor("""
        lift-it: {concern: feasibility, strength: must, when: {balance: stretched},
                  advise: {height over net: at least 1.3 m}}
        across: {concern: pattern, strength: should, when: {ball line: outside},
                 advise: {direction: crosscourt}}
        with-air: {concern: pattern, strength: should, advise: {height over net: at least 0.3 m}}
    """)

    def test_a_missing_fact_that_would_change_the_grade_leaves_it_undecided(self) -> None:
        judged = verdict(self.club, "height over net: 1 m")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.FACT_NOT_SEEN)
        assert judged.possible == {SOUND, UNSOUND}

    def test_that_fact_is_named(self) -> None:
        assert verdict(self.club, "height over net: 1 m").missing == ("balance",)

    def test_a_missing_fact_that_cannot_change_the_grade_is_not_named(self) -> None:
        judged = verdict(self.club, "height over net: 1 m; direction: crosscourt")

        assert judged.missing == ("balance",)

    def test_a_rule_that_is_kept_either_way_changes_nothing(self) -> None:
        judged = verdict(self.club, "height over net: 1.5 m; direction: crosscourt")

        assert (judged.grade, judged.missing) == (SOUND, ())

    def test_the_fact_that_settles_more_is_named_first(self) -> None:
        club = advisor("""
            lift-it: {concern: feasibility, strength: must, when: {balance: stretched, time: late},
                      advise: {height over net: at least 1.3 m}}
            soft: {concern: feasibility, strength: must, when: {balance: stretched},
                   advise: {pace: at most 70 %}}
        """)

        judged = verdict(club, "height over net: 1 m; pace: 90 %")

        assert judged.missing[0] == "balance"

    def test_several_possible_words_are_as_open_as_they_are(self) -> None:
        chosen = choice("height over net: 1 m")
        some = situation("balance: set or moving")
        others = situation("balance: set or stretched")

        assert judge(chosen, advise(self.club, some)).grade is SOUND
        assert judge(chosen, advise(self.club, others)).grade is UNDECIDED

    def test_a_definite_unsound_stays_unsound_whatever_else_is_unknown(self) -> None:
        judged = verdict(
            self.club, "height over net: 1 m; direction: straight", "balance: stretched"
        )

        assert judged.grade is UNSOUND
        assert judged.possible == {UNSOUND}
        assert judged.missing == ()

    def test_doubtful_and_unsound_together_count_as_broken(self) -> None:
        club = advisor("""
            lift-it: {concern: feasibility, strength: must, when: {balance: stretched},
                      advise: {height over net: at least 1.3 m}}
            with-air: {concern: pattern, strength: should,
                       advise: {height over net: at least 0.3 m}}
        """)

        judged = verdict(club, "height over net: 0.1 m")

        assert (judged.grade, judged.kept) == (UNDECIDED, Kept.NO)
        assert judged.possible == {DOUBTFUL, UNSOUND}

    def test_no_rule_that_speaks_is_a_reason_of_its_own(self) -> None:
        judged = verdict(self.club, "stance: split")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.NO_RULE)
        assert (judged.missing, judged.clashing) == ((), ())


class TestConditions:
    def test_an_exception_silences_a_rule(self) -> None:
        club = advisor("""
            lift-it: {concern: feasibility, strength: must, unless: {balance: set},
                      advise: {height over net: at least 1.3 m}}
        """)

        assert verdict(club, "height over net: 1 m", "balance: moving").grade is UNSOUND
        assert verdict(club, "height over net: 1 m", "balance: set").reason is Reason.NO_RULE

    @pytest.mark.parametrize("facts", ["balance: set", "time: plenty"])
    def test_any_one_of_several_exceptions_is_enough(self, facts: str) -> None:
        club = advisor("""
            lift-it: {concern: feasibility, strength: must,
                      unless: [{balance: set}, {time: plenty}],
                      advise: {height over net: at least 1.3 m}}
        """)

        assert verdict(club, "height over net: 1 m", facts).reason is Reason.NO_RULE

    def test_an_exception_not_seen_leaves_the_rule_open(self) -> None:
        club = advisor("""
            lift-it: {concern: feasibility, strength: must, unless: {time: plenty},
                      advise: {height over net: at least 1.3 m}}
            with-air: {concern: pattern, strength: should,
                       advise: {height over net: at least 0.3 m}}
        """)

        judged = verdict(club, "height over net: 1 m")

        assert judged.possible == {SOUND, UNSOUND}
        assert judged.missing == ("time",)

    chained = advisor(
        """
        lift-it: {concern: feasibility, strength: must, when: {defending: yes},
                  advise: {height over net: at least 1.3 m}}
        drive-it: {concern: feasibility, strength: must, when: {defending: no},
                   advise: {height over net: at most 0.7 m}}
        """,
        """
        terms:
          defending: {means: no way to attack, any: [{in trouble: yes}, {court depth: far behind}]}
          in trouble: {means: hardly steered, balance: [stretched, jammed]}
        """,
    )

    @pytest.mark.parametrize(
        ("facts", "rule"),
        [
            ("balance: jammed; court depth: 10 m", "lift-it"),
            ("balance: set; court depth: 16 m", "lift-it"),
            ("balance: set; court depth: 10 m", "drive-it"),
        ],
    )
    def test_terms_are_derived_from_facts_and_from_other_terms(self, facts: str, rule: str) -> None:
        assert ids(self.chained, advice(self.chained, facts).applying) == {rule}

    def test_a_term_is_open_only_as_long_as_it_has_to_be(self) -> None:
        one_is_enough = advice(self.chained, "balance: jammed")
        one_is_not = advice(self.chained, "balance: set")

        assert ids(self.chained, one_is_enough.applying) == {"lift-it"}
        assert one_is_not.applying == ()
        assert {facts for _, facts in one_is_not.open_rules} == {("court depth",)}

    def test_a_fact_tested_twice_is_one_fact(self) -> None:
        """Either rule alone depends, and yet one of them surely speaks."""
        club = advisor("""
            when-set: {concern: pattern, strength: should, when: {balance: set},
                       advise: {direction: crosscourt}}
            when-not: {concern: pattern, strength: should, when: {balance: not set},
                       advise: {direction: [crosscourt, middle]}}
        """)

        assert verdict(club, "direction: straight").grade is DOUBTFUL
        assert verdict(club, "direction: crosscourt").grade is SOUND


class TestNotApplicable:
    @pytest.mark.parametrize("asked", ["shoulder", "not shoulder", "at most 0.5 of stature"])
    def test_a_test_about_something_not_applicable_never_holds(self, asked: str) -> None:
        club = advisor(f"""
            shape-it: {{concern: feasibility, strength: should, when: {{body height: {asked}}},
                        advise: {{pace: at most 70 %}}}}
        """)

        judged = verdict(club, "pace: 90 %", "game situation: serving")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.NO_RULE)

    def test_its_opposite_holds(self) -> None:
        club = advisor("""
            shape-it: {concern: feasibility, strength: should,
                       when: {not: {body height: shoulder}}, advise: {pace: at most 70 %}}
        """)

        assert verdict(club, "pace: 90 %", "game situation: serving").grade is DOUBTFUL

    def test_not_applicable_is_not_the_same_as_not_seen(self) -> None:
        club = advisor("""
            shape-it: {concern: feasibility, strength: should, when: {body height: shoulder},
                       advise: {pace: at most 70 %}}
        """)

        assert verdict(club, "pace: 90 %", "body height: not seen").missing == ("body height",)
        assert verdict(club, "pace: 90 %", "body height: not applicable").missing == ()


class TestRestrictedToday:
    club = advisor("""
        chase-it: {concern: court position, strength: must, advise: {response: played}}
        soft: {concern: court position, strength: should, advise: {pace: at most 70 %}}
    """)

    def test_effort_is_not_graded_where_something_hurts(self) -> None:
        judged = verdict(self.club, "response: let go", "restricted today: yes")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.NO_RULE)

    def test_the_rest_of_the_choice_still_is(self) -> None:
        found = grades(self.club, "response: played; pace: 90 %", "restricted today: yes")

        assert found == {"pace": DOUBTFUL}

    def test_nothing_noted_means_no_restriction(self) -> None:
        assert verdict(self.club, "response: let go").grade is UNSOUND

    def test_a_question_mark_means_there_may_be_one(self) -> None:
        facts = "restricted today: no or yes"

        assert verdict(self.club, "response: let go", facts).reason is Reason.NO_RULE
