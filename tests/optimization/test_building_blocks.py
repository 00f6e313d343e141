import numpy as np
import pytest

from model.errors import NoPlan
from model.optimization.constraints import Constraints
from model.optimization.program import assemble
from model.optimization.solve import Solver
from model.optimization.variables import Variables


def test_a_name_is_taken_once() -> None:
    variables = Variables()
    variables.add("jars", "R", np.ones(2, dtype=bool))

    with pytest.raises(ValueError, match="'jars' are there already"):
        variables.add("jars", "R", np.ones(2, dtype=bool))
    rows = Constraints("limit", "R", (2,)).at_most(1.0)
    with pytest.raises(ValueError, match="'limit' are there already"):
        assemble(variables, [rows, rows])


def test_absent_decisions_have_no_column_and_read_back_as_nothing() -> None:
    variables = Variables()
    exists = np.array([[True, False], [False, True]])
    block = variables.add("opened", "RW", exists, upper=np.array([[1.0, 9.0], [9.0, 2.0]]))

    assert variables.count == 2
    assert list(variables.upper) == [1.0, 2.0]
    assert block.values(np.array([5.0, 7.0])).tolist() == [[5.0, 0.0], [0.0, 7.0]]


def test_a_term_without_a_column_is_left_out() -> None:
    variables = Variables()
    block = variables.add("x", "W", np.array([True, False, True]))
    rows = Constraints("sum", "W", (3,))
    rows.add(block.index, 2.0)

    assert rows.matrix(variables.count).toarray().tolist() == [[2, 0], [0, 0], [0, 2]]


def test_misshapen_and_non_finite_input_is_refused() -> None:
    rows = Constraints("shelf", "RW", (2, 3))
    with pytest.raises(ValueError, match="shape"):
        rows.add(np.zeros((2, 3), dtype=int), np.ones((4, 3)))
    with pytest.raises(ValueError, match="not a finite"):
        rows.add(np.zeros((2, 3), dtype=int), np.full((2, 3), np.nan))
    with pytest.raises(ValueError, match="not a number"):
        rows.at_most(np.nan)


def test_rows_that_bind_nothing_are_left_out_and_the_others_keep_their_place() -> None:
    variables = Variables()
    block = variables.add("x", "W", np.ones(3, dtype=bool), upper=10.0)
    variables.value("x", 1.0)
    rows = Constraints("limit", "W", (3,))
    rows.add(block.index, 1.0)
    program = assemble(variables, [rows.at_most(np.array([4.0, np.inf, 6.0]))])

    assert program.families["limit"].tolist() == [0, -1, 1]
    assert Solver(program).solve().values.tolist() == [4.0, 10.0, 6.0]


def test_a_program_without_an_answer_says_so() -> None:
    variables = Variables()
    block = variables.add("x", "W", np.ones(1, dtype=bool))
    rows = Constraints("contradiction", "W", (1,))
    rows.add(block.index, 1.0)
    program = assemble(variables, [rows.at_most(-1.0)])

    with pytest.raises(NoPlan, match="Infeasible"):
        Solver(program).solve()


def test_solving_again_from_the_basis_gives_the_same_answer() -> None:
    variables = Variables()
    block = variables.add("x", "W", np.ones(4, dtype=bool), upper=3.0)
    variables.value("x", np.array([1.0, 2.0, 3.0, 4.0]))
    rows = Constraints("limit", "W", (1,))
    rows.add(block.index, 1.0, np.zeros(4, dtype=int))
    program = assemble(variables, [rows.at_most(5.0)])
    cold = Solver(program).solve()
    again = Solver(program)
    again.start_from(cold.basis)

    assert again.solve().values.tolist() == cold.values.tolist() == [0.0, 0.0, 2.0, 3.0]
