"""Plantings stand in their season, in order and in their bed."""

import pytest

from tests.intake.faulty import faults
from tests.small_season import small_season

HEADINGS = "season,crop,bed,sown,planted_out,first_picking,area_m2,plants,least_percent\n"


def planted(*rows: str) -> str:
    return HEADINGS + "".join(f"{row}\n" for row in rows)


@pytest.mark.parametrize(
    ("dates", "found"),
    [
        ("2027-05-28,,2028-02-01", "first_picking is 2028-02-01, outside its season"),
        ("2027-05-28,,2026-12-31", "first picking on 2026-12-31 is before sown on 2027-05-28"),
        ("2028-05-28,,2028-08-01", "sown is 2028-05-28, outside its season"),
        ("2025-05-28,,", "sown is 2025-05-28, outside its season"),
        ("2027-05-28,2027-05-01,", "planted out on 2027-05-01 is before sown on 2027-05-28"),
        (",2027-05-28,2027-05-01", "first picking on 2027-05-01 is before planted out"),
    ],
)
def test_a_planting_outside_its_season_or_out_of_order_is_told(dates: str, found: str) -> None:
    told = faults(plantings=planted(f"2027,bush bean,only bed,{dates},8,,"))

    assert any(p.row == 2 and found in p.found for p in told)


def test_what_overwinters_is_sown_in_the_year_before_and_a_tree_planted_long_ago() -> None:
    season = small_season(
        plantings=planted(
            "2027,garlic,only bed,,2026-10-10,2027-07-10,4,,",
            "2027,apple,only bed,,2011-11-20,2027-09-01,,,",
        )
        .replace("apple,only bed", "blackcurrant,only bed")
        .replace(",,,\n", ",,2,\n")
    )

    assert [planting.crop for planting in season.plantings] == ["garlic", "blackcurrant"]


def test_plantings_that_stand_together_must_fit_their_bed() -> None:
    rows = [f"2027,bush bean,only bed,2027-05-{day},,,11,," for day in (10, 12, 14)]
    (problem,) = faults(plantings=planted(*rows))

    assert "the plantings in only bed need 33.0 m2 on 2027-05-14" in problem.found
    assert "at most 30 m2" in problem.wanted


def test_plantings_may_follow_each_other_in_a_bed_or_be_made_smaller() -> None:
    after = [f"2027,bush bean,only bed,{day},,,25,," for day in ("2027-04-20", "2027-08-01")]
    smaller = [f"2027,bush bean,only bed,2027-05-{day},,,16,,50" for day in (10, 12, 14)]

    assert len(small_season(plantings=planted(*after)).plantings) == 2
    assert len(small_season(plantings=planted(*smaller)).plantings) == 3


def test_one_planting_larger_than_its_bed_is_told() -> None:
    (problem,) = faults(plantings=planted("2027,bush bean,only bed,2027-05-10,,,31,,"))

    assert "need 31.0 m2" in problem.found


def test_a_season_at_fault_is_not_told_again_by_what_lies_in_it() -> None:
    (problem,) = faults(seasons="season,begins,ends\n2027,2027-01-01,2026-12-31\n")

    assert (problem.file, problem.row) == ("seasons.csv", 2)


def test_the_faults_of_a_planting_are_told_together() -> None:
    told = faults(plantings=planted("2072,apple,ony bed,2027-05-10,2027-05-01,,3,,"))

    assert len(told) == 4
    assert all(p.row == 2 for p in told)


def test_a_planting_that_cannot_be_dated_says_which_dates_would_do() -> None:
    (annual,) = faults(plantings=planted("2027,bush bean,only bed,,,,8,,"))
    (perennial,) = faults(plantings=planted("2027,blackcurrant,only bed,,2011-11-20,,,2,"))

    assert annual.wanted == "give first_picking or sown"
    assert perennial.wanted == "give first_picking"


@pytest.mark.parametrize(("done", "sound"), [("sown", True), ("planted out", False), ("no", False)])
def test_a_step_that_is_done_is_known_and_has_a_day(done: str, sound: bool) -> None:
    rows = f"{HEADINGS.strip()},done\n2027,bush bean,only bed,2027-05-28,,,8,,,{done}\n"
    if sound:
        assert small_season(plantings=rows).plantings[0].done == done
        return
    (told,) = faults(plantings=rows)

    assert done in told.found
