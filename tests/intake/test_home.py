"""Names that already mean something, habits in one spelling, frosts that must be there."""

import pytest

from model.demand.lean_weeks import WHOLE_PLATE
from model.intake import home_columns
from tests.intake.faulty import faults
from tests.small_season import TABLES, small_season

HABITS = "habit,from_month_day,factor\n"


def test_the_name_of_the_whole_plate_is_the_one_that_the_forecast_uses() -> None:
    assert home_columns.WHOLE_PLATE == WHOLE_PLATE


@pytest.mark.parametrize(
    "changes",
    [
        {"foods": TABLES["foods.csv"].replace("tomatoes,", "Whole plate,")},
        {"eaters": TABLES["eaters.csv"].replace("Ann", "everyone")},
        {"habits": f"{HABITS}With the season,01-01,1\n"},
        {"habits": f"{HABITS}with the  season,01-01,1\nwith the season,06-01,2\n"},
    ],
)
def test_a_name_that_already_has_a_meaning_is_refused(changes: dict[str, str]) -> None:
    told = faults(**changes)

    assert all("choose another name" in p.wanted for p in told if p.file[:-4] in changes)
    assert any(p.file[:-4] in changes for p in told)


def test_a_habit_is_written_in_one_way() -> None:
    (problem,) = faults(habits=f"{HABITS}Evenly,01-01,1\nevenly,06-01,2\n")

    assert (problem.row, problem.found) == (3, "habit 'evenly' is also written 'Evenly'")


def test_a_food_may_name_the_habit_that_needs_no_writing_down() -> None:
    foods = (
        "food,group,portions_a_week,most_a_week,liking,habit,crops\n"
        "beans,vegetable,3,8,4,With the season,bush bean\ntomatoes,vegetable,4,9,5,,tomato\n"
    )

    assert small_season(foods=foods) == small_season()


@pytest.mark.parametrize(
    "frosts",
    [
        TABLES["frosts.csv"].replace("04-28,05-12,05-26", ",,"),
        "\n".join(TABLES["frosts.csv"].splitlines()[:2]),
        TABLES["frosts.csv"].splitlines()[0],
    ],
)
def test_a_place_without_frost_is_told_plainly(frosts: str) -> None:
    told = faults(frosts=frosts)

    assert {p.file for p in told} == {"frosts.csv"}
    assert all("without frost cannot be planned" in p.wanted for p in told)


@pytest.mark.parametrize("altitude", ["1.200", '"182,5"', "high", "30000"])
def test_a_faulty_altitude_is_one_fault_and_not_an_absent_altitude(altitude: str) -> None:
    household = f"household,invented,altitude_m,notes_date\nTiny,yes,{altitude},2027-03-01\n"
    (problem,) = faults(household=household)

    assert (problem.file, problem.row) == ("household.csv", 2)
    assert problem.found.startswith("altitude_m ")
    assert problem.wanted


def test_with_a_faulty_altitude_the_other_checks_of_a_jar_go_on() -> None:
    told = faults(
        household="household,altitude_m\nTiny,high\n",
        preserves=TABLES["preserves.csv"].replace("Beans, dilled", "Beans, boiled"),
    )

    assert [(p.file, p.row) for p in told] == [("household.csv", 2), ("preserves.csv", 5)]
