"""The solver answers, names what does not go together, and gives up on what is too hard."""

from itertools import combinations

import pytest

from tactics.checks.clauses import ALWAYS, NEVER, Clauses, is_in
from tactics.checks.solve import NotSettledError, Solver


def pigeons(holes: int) -> list[list[int]]:
    """Return the clauses that one more pigeon than holes cannot meet: hard for every solver."""

    def sits(pigeon: int, hole: int) -> int:
        return 1 + pigeon * holes + hole

    somewhere = [[sits(pigeon, hole) for hole in range(holes)] for pigeon in range(holes + 1)]
    alone = [
        [-sits(one, hole), -sits(other, hole)]
        for hole in range(holes)
        for one, other in combinations(range(holes + 1), 2)
    ]
    return somewhere + alone


def test_an_answer_holds_what_was_asked_for() -> None:
    solver = Solver([[1, 2], [-1, 3]])

    assert solver.can_hold([1])
    assert list(solver.model()) == [1, solver.model()[1], 3]


def test_culprits_are_among_what_was_asked_for() -> None:
    solver = Solver([[-1, -2]])

    assert not solver.can_hold([1, 2, 3])
    assert solver.culprits() == {1, 2}


def test_a_question_that_is_too_hard_is_not_settled() -> None:
    solver = Solver(pigeons(7), most_conflicts=5)

    with pytest.raises(NotSettledError):
        solver.can_hold([])


def test_small_questions_are_settled_within_the_same_means() -> None:
    assert not Solver(pigeons(2), most_conflicts=50).can_hold([])


def test_every_and_some_know_what_always_and_never_hold() -> None:
    clauses = Clauses()
    one, other = clauses.fresh(), clauses.fresh()

    assert clauses.every(()) == ALWAYS
    assert clauses.some(()) == NEVER
    assert clauses.every((one, ALWAYS)) == one
    assert clauses.every((one, -one)) == NEVER
    assert clauses.some((one, -one)) == ALWAYS
    assert clauses.every((one, other)) == clauses.every((other, one))


def test_a_branch_leaves_the_clauses_it_came_from_alone() -> None:
    clauses = Clauses()
    one = clauses.fresh()
    branch = clauses.branch()

    branch.add(-one)

    assert clauses.can_hold([one])
    assert not branch.can_hold([one])


def test_a_literal_newer_than_the_answer_is_not_known() -> None:
    clauses = Clauses()
    one = clauses.fresh()
    clauses.add(one)
    assert clauses.can_hold([])
    found = clauses.found()

    newer = clauses.fresh()

    assert is_in(found, one)
    assert not is_in(found, newer)
    assert not is_in(found, -newer)
