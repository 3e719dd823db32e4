"""Facts that follow from others: hands, the wing a ball finds, heights, the time of the ball."""

import pytest

from tactics.engine.derive import complete, finds, unseen_behind
from tactics.model.known import NOT_SEEN, Known, OneOf, Within, number, word
from tactics.model.standard import STANDARD
from tests.engine.small_sets import advisor, choice, finding, grades, situation, value, verdict

BOTH = OneOf(frozenset(("forehand", "backhand")))


def _derived(fact: str, facts: str) -> Known:
    return complete(situation(facts), STANDARD).get(fact)


def _found(chosen: str, facts: str) -> Known:
    return finds(choice(chosen), complete(situation(facts), STANDARD))


class TestHands:
    @pytest.mark.parametrize(
        ("own", "opponent", "hands"),
        [
            ("right", "right", "same"),
            ("left", "left", "same"),
            ("right", "left", "opposite"),
            ("left", "right", "opposite"),
        ],
    )
    def test_the_pair_follows_from_the_two_hands(self, own: str, opponent: str, hands: str) -> None:
        facts = f"own hand: {own}; opponent hand: {opponent}"

        assert _derived("hands", facts) == word(hands)

    def test_it_stays_open_where_a_hand_was_not_seen(self) -> None:
        assert _derived("hands", "own hand: left") is NOT_SEEN


class TestServe:
    @pytest.mark.parametrize("own", ["right", "left"])
    @pytest.mark.parametrize(
        ("opponent", "side", "at_the_backhand"),
        [
            ("right", "deuce", "T"),
            ("right", "ad", "wide"),
            ("left", "deuce", "wide"),
            ("left", "ad", "T"),
        ],
    )
    def test_which_serve_finds_the_backhand(
        self, own: str, opponent: str, side: str, at_the_backhand: str
    ) -> None:
        facts = (
            f"game situation: serving; own hand: {own}; opponent hand: {opponent}; "
            f"serve side: {side}"
        )
        other = {"T": "wide", "wide": "T"}[at_the_backhand]

        assert _found(f"direction: {at_the_backhand}", facts) == word("backhand")
        assert _found(f"direction: {other}", facts) == word("forehand")

    def test_a_serve_at_the_body_finds_the_body(self) -> None:
        facts = "game situation: serving; opponent hand: right; serve side: ad"

        assert _found("direction: at body", facts) == word("body")

    @pytest.mark.parametrize("facts", ["opponent hand: right", "serve side: ad"])
    def test_it_stays_open_where_side_or_hand_was_not_seen(self, facts: str) -> None:
        assert _found("direction: wide", f"game situation: serving; {facts}") == BOTH

    def test_what_was_not_seen_is_named_by_what_a_coach_can_chart(self) -> None:
        club = advisor("""
            backhand-first: {concern: pattern, strength: should,
                             when: {game situation: serving}, advise: {finds: backhand}}
        """)

        judged = verdict(club, "direction: wide", "game situation: serving; opponent hand: right")

        assert judged.missing == ("serve side",)

    def test_where_all_that_is_possible_agrees_nothing_is_missing(self) -> None:
        club = advisor("""
            any-wing: {concern: pattern, strength: should, when: {game situation: serving},
                       advise: {finds: [backhand, forehand]}}
        """)

        assert grades(club, "direction: wide", "game situation: serving") == {"finds": "sound"}


class TestRally:
    @pytest.mark.parametrize(
        ("own", "opponent", "across", "along"),
        [
            ("right", "right", "forehand", "backhand"),
            ("left", "left", "forehand", "backhand"),
            ("right", "left", "backhand", "forehand"),
            ("left", "right", "backhand", "forehand"),
        ],
    )
    def test_a_ball_from_the_forehand_side_finds(
        self, own: str, opponent: str, across: str, along: str
    ) -> None:
        facts = f"own hand: {own}; opponent hand: {opponent}; court width: forehand third"

        assert _found("direction: crosscourt", facts) == word(across)
        assert _found("direction: straight", facts) == word(along)

    @pytest.mark.parametrize(("direction", "wing"), [("inside-out", "backhand"),
                                                     ("inside-in", "forehand")])  # fmt: skip
    def test_a_ball_from_around_the_backhand_counts_from_that_side(
        self, direction: str, wing: str
    ) -> None:
        facts = "own hand: right; opponent hand: right; court width: backhand third"

        assert _found(f"direction: {direction}", facts) == word(wing)

    def test_in_the_middle_the_wing_tells_the_side(self) -> None:
        facts = "own hand: right; opponent hand: right; court width: middle third"

        assert _found("direction: crosscourt", f"{facts}; wing: backhand") == word("backhand")
        assert _found("direction: crosscourt", facts) == BOTH

    @pytest.mark.parametrize(
        ("width", "wing"),
        [
            ("1.37 m", word("forehand")),
            ("1.36 m", BOTH),
            ("-1.36 m", BOTH),
            ("-1.38 m", word("backhand")),
        ],
    )
    def test_the_middle_ends_where_the_outer_thirds_begin(self, width: str, wing: Known) -> None:
        facts = f"own hand: right; opponent hand: right; court width: {width}"

        assert _found("direction: crosscourt", facts) == wing

    def test_a_ball_through_the_middle_finds_the_body(self) -> None:
        assert _found("direction: middle", "") == word("body")

    def test_nothing_is_found_without_a_direction(self) -> None:
        assert _found("pace: 70 %", "") is NOT_SEEN

    def test_what_was_charted_comes_before_what_follows(self) -> None:
        facts = "own hand: right; opponent hand: right; court width: forehand third"

        assert _found("direction: crosscourt; finds: backhand", facts) == word("backhand")

    def test_what_it_finds_is_graded_like_any_part(self) -> None:
        club = advisor("""
            their-backhand: {concern: pattern, strength: should, advise: {finds: backhand}}
        """)

        found = finding(
            club,
            "finds",
            "direction: crosscourt",
            "own hand: right; opponent hand: right; court width: forehand third",
        )

        assert (found.grade, found.charted) == ("doubtful", word("forehand"))

    def test_hands_that_were_not_seen_are_both_named(self) -> None:
        missing = unseen_behind(choice("direction: crosscourt"), situation("own hand: left"))

        assert missing["hands"] == ("opponent hand",)
        assert missing["finds"] == ("opponent hand", "court width", "wing")


class TestHeights:
    def test_body_height_follows_from_contact_height_and_stature(self) -> None:
        assert _derived("body height", "contact height: 0.9 m; stature: 1.8 m") == number(0.5)

    def test_contact_height_follows_from_body_height_and_stature(self) -> None:
        derived = _derived("contact height", "body height: waist; stature: 1.8 m")

        assert isinstance(derived, Within)
        assert derived.intervals[0].low == (0.936, 0)
        assert derived.intervals[0].high == (1.152, 0)

    def test_a_ball_level_with_the_net_is_at_a_childs_shoulder(self) -> None:
        club = advisor("""
            let-it-drop: {concern: feasibility, strength: should,
                          when: {body height: shoulder or higher}, advise: {pace: at most 70 %}}
        """)
        facts = "contact height: 1.12 m"

        assert verdict(club, "pace: 90 %", f"{facts}; stature: 1.35 m").grade == "doubtful"
        assert verdict(club, "pace: 90 %", f"{facts}; stature: 1.75 m").findings == ()

    @pytest.mark.parametrize("facts", ["contact height: 0.9 m", "stature: 1.8 m"])
    def test_neither_follows_from_one_fact_alone(self, facts: str) -> None:
        assert _derived("body height", facts) is NOT_SEEN

    def test_what_was_charted_is_not_derived_again(self) -> None:
        facts = "contact height: 0.9 m; stature: 1.8 m; body height: chest"

        assert _derived("body height", facts) == value("body height", "chest")

    def test_a_rule_about_one_height_speaks_where_the_other_was_charted(self) -> None:
        club = advisor("""
            shape-it: {concern: feasibility, strength: should,
                       when: {body height: shoulder or higher}, advise: {pace: at most 70 %}}
        """)

        facts = "contact height: 5 ft; stature: 1.8 m"

        assert verdict(club, "pace: 90 %", facts).grade == "doubtful"


class TestIncomingTime:
    def test_it_follows_from_the_pace_where_both_are_back(self) -> None:
        facts = "incoming pace: 100 km/h; court depth: on baseline; opponent depth: behind"

        assert _derived("incoming time", facts) == number(1.2)

    def test_a_faster_ball_leaves_less_time(self) -> None:
        facts = "incoming pace: fast; court depth: on baseline; opponent depth: behind"

        derived = _derived("incoming time", facts)

        assert isinstance(derived, Within)
        assert derived.intervals[0].low == (0.902256, 1)
        assert derived.intervals[0].high == (1.2, 1)

    @pytest.mark.parametrize(
        "facts",
        [
            "incoming pace: 100 km/h; court depth: on baseline",
            "incoming pace: 100 km/h; court depth: forecourt; opponent depth: behind",
            "court depth: on baseline; opponent depth: behind",
        ],
        ids=["opponent not seen", "player not back", "pace not seen"],
    )
    def test_it_stays_open_elsewhere(self, facts: str) -> None:
        assert _derived("incoming time", facts) is NOT_SEEN


class TestMarks:
    def test_a_mark_that_is_empty_is_not_set(self) -> None:
        assert _derived("restricted today", "") == word("no")

    def test_a_mark_that_is_set_stays_set(self) -> None:
        assert _derived("restricted today", "restricted today: yes") == word("yes")
