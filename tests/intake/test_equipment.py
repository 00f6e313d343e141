"""Canners and kitchen hours say what is missing, once."""

from tests.intake.faulty import faults
from tests.small_season import TABLES


def test_a_canner_without_its_jar_says_which_there_are() -> None:
    pan = "pan,boiling-water canner,,7\n"
    problem = next(p for p in faults(equipment=TABLES["equipment.csv"] + pan) if p.row == 4)

    assert problem.found == "jar is empty"
    assert problem.wanted == "use one of: quart, pint, pack"


def test_the_hours_of_every_other_week_are_asked_for_once() -> None:
    (problem,) = faults(kitchen_hours="begins,ends,hours_a_week\n")

    assert problem.found == "not one row stands for all other weeks"


def test_hours_at_fault_are_not_told_again_as_missing() -> None:
    (problem,) = faults(kitchen_hours="begins,ends,hours_a_week\n,,many\n")

    assert problem.found == "hours_a_week is 'many'"
