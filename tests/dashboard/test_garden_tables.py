"""What is to be sown now: this week's and next week's, and what is a little late."""

from datetime import date

import pandas as pd

import model
from dashboard.garden_tables import garden_rows, sow_now_rows
from model import PlannedSeason
from model.season.garden import STEPS

MONDAY = date(2027, 3, 15)


def plantings(*days: tuple[str, date | None, date | None], amount: float = 4.0) -> pd.DataFrame:
    """Give plantings by crop, day sown and day planted out."""
    return pd.DataFrame(
        [
            {
                "crop": crop,
                "bed": "bed",
                "per": "m2",
                "amount": amount,
                "done": "",
                "sown": sown,
                "start": start,
            }
            for crop, sown, start in days
        ]
    )


def test_what_is_due_by_the_end_of_next_week_is_told_and_what_is_a_little_late() -> None:
    rows = sow_now_rows(
        plantings(
            ("next week", date(2027, 3, 28), date(2027, 3, 28)),
            ("late", date(2027, 3, 8), date(2027, 5, 20)),
            ("the week after", date(2027, 3, 29), date(2027, 3, 29)),
            ("long past", date(2027, 2, 28), date(2027, 2, 28)),
            ("grown on", date(2027, 2, 1), date(2027, 3, 15)),
        ),
        MONDAY,
        "metric",
    )

    assert list(rows["crop"]) == ["late", "grown on", "next week"]
    assert list(rows["task"]) == ["sow, to plant out later", "plant out", "sow"]
    assert list(rows["start_when"]) == ["8 Mar: now, if it was not done", "15 Mar", "28 Mar"]
    assert set(rows.columns) <= set(model.HEADINGS)


def test_a_step_that_was_written_down_as_done_is_over() -> None:
    days = date(2027, 3, 8), date(2027, 3, 20)
    left = {
        done: list(
            sow_now_rows(plantings(("leek", *days)).assign(done=done), MONDAY, "metric").task
        )
        for done in ("", *STEPS)
    }

    assert left == {
        "": ["sow, to plant out later", "plant out"],
        "sown": ["plant out"],
        "planted out": [],
    }


def test_what_the_plan_leaves_out_is_not_to_be_sown() -> None:
    none = plantings(("pea", MONDAY, MONDAY), amount=0.0)

    assert sow_now_rows(none, MONDAY, "metric").empty


def test_the_demo_household_s_late_peppers_are_told_in_its_own_words(
    spring_plan: PlannedSeason,
) -> None:
    # demo_data/alder_lane/plantings.csv: peppers sown on 8 March
    rows = sow_now_rows(model.planting_table(spring_plan), MONDAY, "metric").set_index("crop")

    assert rows.loc["pepper", "start_when"].startswith("8 Mar: now")


def test_what_to_plant_stands_in_the_order_of_its_work() -> None:
    rows = garden_rows(
        plantings(
            ("no day", None, None),
            ("later", date(2027, 5, 1), date(2027, 5, 1)),
            ("raised", date(2027, 3, 1), date(2027, 5, 20)),
        ).assign(first_picking=None, spare_kg=0.0),
        MONDAY,
        "metric",
    )

    assert list(rows["crop"]) == ["raised", "later", "no day"]
