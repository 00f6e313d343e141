"""The jar that did not seal stands in the refrigerator until somebody says what became of it."""

from datetime import date
from pathlib import Path

from streamlit.testing.v1 import AppTest

from model import Author, Edit, Store, ledgers, season_from_tables
from tests.dashboard.seeding import ALDER_LANE, FIRST, rows
from tests.dashboard.steps import labelled, look

CODE, TODAY, LARDER = "2027-08-15 corn relish", date(2027, 8, 16), "views/larder.py"


def standing(path: Path) -> float:
    season = season_from_tables(Store(path, FIRST).tables(ALDER_LANE))
    return ledgers(season, TODAY)["corn relish"].units


def asked(larder: AppTest) -> list[str]:
    return [one.label for one in larder.get("button_group") if "refrigerator" in one.label]


def test_it_is_said_to_be_eaten_and_takes_no_sealed_jar_off_the_shelf(
    app: AppTest, store_path: Path
) -> None:
    filled = next(row["filled"] for row in rows(store_path, "batches.csv") if row["batch"] == CODE)
    seen = {"batch": CODE, "checked_on": "2027-08-16", "sealed": f"{float(filled) - 1:g}"}
    one_failed = Edit("seals.csv", {**seen, "failed_went": "refrigerated"})
    store = Store(store_path, FIRST)
    store.write(ALDER_LANE, Author("look", FIRST, "", "look"), [one_failed])
    larder = look(app, "Alder Lane", TODAY, LARDER)
    before = standing(store_path)
    assert asked(larder) == ["In the refrigerator: 1 jar of corn relish that did not seal"]
    labelled(larder, "button_group", "In the refrigerator").set_value("eaten").run()
    labelled(larder, "button", "Save: 1 jar of corn relish").click().run()

    assert not larder.exception
    assert rows(store_path, "seals.csv")[-1]["failed_went"] == "eaten"
    assert standing(store_path) == before == float(filled) - 1
    assert asked(larder) == []


def test_after_four_weeks_nobody_is_asked_any_more(app: AppTest) -> None:
    assert asked(look(app, "Alder Lane", date(2028, 1, 10), LARDER)) == []
