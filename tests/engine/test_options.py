"""Rules that set others aside, open a door, or speak of one kind of choice only."""

import pytest

from tactics.model.verdict import Grade, Kept, Reason
from tests.engine.small_sets import (
    advice,
    advisor,
    finding,
    grades,
    ids,
    verdict,
)

SOUND, ACCEPTABLE = Grade.SOUND, Grade.ACCEPTABLE
DOUBTFUL, UNSOUND, UNDECIDED = Grade.DOUBTFUL, Grade.UNSOUND, Grade.UNDECIDED


class TestBeats:
    def test_a_beaten_rule_is_set_aside(self) -> None:
        club = advisor("""
            across: {concern: feasibility, strength: must, advise: {direction: crosscourt}}
            along: {concern: pattern, strength: should, advise: {direction: straight},
                    beats: [across]}
        """)

        assert verdict(club, "direction: straight").grade is SOUND
        assert [ids(club, pair) for pair in advice(club).beaten] == [{"across", "along"}]

    def test_beating_settles_what_would_be_a_conflict(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: should, advise: {direction: crosscourt},
                     beats: [along]}
            along: {concern: pattern, strength: should, advise: {direction: straight}}
        """)

        assert verdict(club, "direction: straight").grade is DOUBTFUL

    chain = advisor("""
        first: {concern: pattern, strength: should, when: {balance: set},
                advise: {spin: top}, beats: [second]}
        second: {concern: pattern, strength: should, advise: {direction: crosscourt},
                 beats: [third]}
        third: {concern: pattern, strength: must, advise: {direction: straight}}
    """)

    def test_a_beaten_rule_beats_nobody(self) -> None:
        assert ids(self.chain, advice(self.chain, "balance: set").applying) == {"first", "third"}
        assert verdict(self.chain, "direction: crosscourt", "balance: set").grade is UNSOUND

    def test_a_rule_that_does_not_apply_beats_nobody(self) -> None:
        applying = advice(self.chain, "balance: moving").applying

        assert ids(self.chain, applying) == {"second"}

    def test_whether_a_beater_applies_can_be_what_decides(self) -> None:
        judged = verdict(self.chain, "direction: crosscourt")

        assert judged.possible == {SOUND, UNSOUND}
        assert judged.missing == ("balance",)


class TestOptions:
    club = advisor("""
        across: {concern: court position, strength: should,
                 advise: {direction: crosscourt, pace: at most 80 %},
                 alternatives: [{direction: middle, height over net: at least 1.3 m}]}
        turn-it: {concern: court position, strength: may,
                  advise: {direction: straight, height over net: at least 0.7 m}}
    """)

    def test_a_may_rule_makes_a_departure_acceptable(self) -> None:
        found = finding(self.club, "direction", "direction: straight; height over net: 1 m")

        assert (found.grade, found.option_of) == (ACCEPTABLE, "turn-it")

    def test_so_does_an_alternative_of_a_rule(self) -> None:
        found = finding(self.club, "direction", "direction: middle; height over net: 1.5 m")

        assert (found.grade, found.option_of) == (ACCEPTABLE, "across")

    def test_an_option_has_to_be_met_in_every_charted_part(self) -> None:
        judged = verdict(self.club, "direction: straight; height over net: 0.3 m")

        assert judged.grade is DOUBTFUL

    def test_a_part_that_was_not_charted_does_not_spoil_an_option(self) -> None:
        assert verdict(self.club, "direction: straight").grade is ACCEPTABLE

    def test_an_option_excuses_only_the_parts_it_speaks_about(self) -> None:
        found = grades(self.club, "direction: straight; height over net: 1 m; pace: 90 %")

        assert found["direction"] is ACCEPTABLE
        assert found["pace"] is DOUBTFUL

    def test_a_may_rule_sets_no_standard(self) -> None:
        assert grades(self.club, "direction: crosscourt; height over net: 0.1 m") == {
            "direction": SOUND
        }

    @pytest.mark.parametrize(
        ("concern", "grade"),
        [("feasibility", ACCEPTABLE), ("court position", ACCEPTABLE), ("pattern", UNSOUND)],
    )
    def test_an_option_never_excuses_from_a_must_of_a_higher_concern(
        self, concern: str, grade: Grade
    ) -> None:
        club = advisor(f"""
            across: {{concern: court position, strength: must, advise: {{direction: crosscourt}}}}
            turn-it: {{concern: {concern}, strength: may, advise: {{direction: straight}}}}
        """)

        assert verdict(club, "direction: straight").grade is grade

    def test_an_option_may_excuse_from_a_should_of_a_higher_concern(self) -> None:
        club = advisor("""
            across: {concern: feasibility, strength: should, advise: {direction: crosscourt}}
            turn-it: {concern: pattern, strength: may, advise: {direction: straight}}
        """)

        assert verdict(club, "direction: straight").grade is ACCEPTABLE

    def test_an_option_alone_makes_a_choice_acceptable(self) -> None:
        club = advisor("""
            turn-it: {concern: pattern, strength: may, advise: {direction: straight}}
        """)

        assert verdict(club, "direction: straight").grade is ACCEPTABLE
        assert verdict(club, "direction: middle").reason is Reason.NO_RULE

    def test_sound_and_acceptable_together_count_as_kept(self) -> None:
        club = advisor("""
            across: {concern: pattern, strength: should, when: {balance: set},
                     advise: {direction: crosscourt}}
            turn-it: {concern: pattern, strength: may, advise: {direction: straight}}
            any-side: {concern: pattern, strength: should, when: {balance: not set},
                       advise: {direction: [crosscourt, straight]}}
        """)

        judged = verdict(club, "direction: straight")

        assert judged.possible == {SOUND, ACCEPTABLE}
        assert (judged.grade, judged.kept, judged.missing) == (ACCEPTABLE, Kept.YES, ())


class TestIfChoosing:
    club = advisor("""
        bigger: {concern: pattern, strength: should, if choosing: {direction: straight},
                 advise: {height over net: at least 0.7 m}}
    """)

    def test_the_rule_speaks_about_choices_like_that(self) -> None:
        assert verdict(self.club, "direction: straight; height over net: 0.3 m").grade is DOUBTFUL

    def test_it_is_silent_about_others(self) -> None:
        judged = verdict(self.club, "direction: crosscourt; height over net: 0.3 m")

        assert (judged.grade, judged.reason) == (UNDECIDED, Reason.NO_RULE)

    def test_before_the_choice_is_known_it_is_a_condition(self) -> None:
        said = advice(self.club)

        assert ids(self.club, said.conditional) == {"bigger"}
        assert said.standards == {}

    def test_a_part_not_charted_that_matters_is_named(self) -> None:
        judged = verdict(self.club, "height over net: 0.3 m")

        assert judged.missing == ("direction",)
