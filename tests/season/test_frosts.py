from datetime import date

from model.season.frosts import Frost, Frosts
from model.season.weeks import YearDay

NORTH = Frosts(
    Frost(YearDay(4, 28), YearDay(5, 12), YearDay(5, 26)),
    Frost(YearDay(9, 20), YearDay(10, 4), YearDay(10, 18)),
)
SOUTH = Frosts(
    Frost(YearDay(9, 22), YearDay(10, 8), YearDay(10, 25)),
    Frost(YearDay(4, 12), YearDay(4, 29), YearDay(5, 16)),
)


def test_the_late_date_is_beaten_in_one_year_of_ten() -> None:
    frost = NORTH.last_spring

    assert abs(frost.chance_after(date(2027, 5, 26)) - 0.1) < 0.01
    assert abs(frost.chance_after(date(2027, 5, 12)) - 0.5) < 0.01
    assert abs((frost.date_with_chance_after(0.1, 2027) - date(2027, 5, 26)).days) <= 1


def test_midwinter_is_the_middle_of_the_frosts_wherever_it_is() -> None:
    assert NORTH.midwinter_before(date(2027, 5, 1)).month == 1
    assert SOUTH.midwinter_before(date(2027, 10, 1)).month == 7
