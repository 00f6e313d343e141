"""What broke is gone from the jars too, and what is mended far off is asked about."""

from datetime import date
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from dashboard.doubts import edit_doubt
from model import Edit
from model.season.record import EATEN
from tests.dashboard.seeding import rows
from tests.dashboard.steps import labelled, look
from tests.recorded import JARS, count, recorded, took

MIDWINTER, LARDER = date(2028, 1, 10), "views/larder.py"


def owned(store_path: Path) -> int:
    return sum(int(row["owned"]) for row in rows(store_path, "jars.csv") if row.get("owned"))


@pytest.mark.parametrize("broke", [True, False])
def test_jars_of_a_fallen_shelf_are_no_longer_owned_where_they_broke(
    app: AppTest, store_path: Path, *, broke: bool
) -> None:
    larder = look(app, "Alder Lane", MIDWINTER, LARDER)
    before = owned(store_path)
    larder.segmented_control(key="larder_what").set_value("Something went wrong").run()
    labelled(larder, "button_group", "Where").set_value("larder shelves").run()
    labelled(larder, "selectbox", "What happened").set_value("shelf fell").run()
    toggle = next(one for one in larder.toggle if "broke" in one.label)
    jars = int(toggle.label.split()[0])
    toggle.set_value(broke).run()
    labelled(larder, "button", "Write off everything").click().run()

    assert not larder.exception
    assert jars > 20
    assert owned(store_path) == before - (jars if broke else 0)
    labelled(larder, "button", "Undo").click().run()
    assert owned(store_path) == before


def test_a_mended_entry_of_a_day_to_come_or_of_more_than_there_was_is_asked_about() -> None:
    monday, tuesday = date(2027, 3, 1), date(2027, 3, 2)
    season = recorded(counts=(count(monday, 6),), taken=(took(tuesday, 2, EATEN),))

    def asked(jars: str, day: date) -> str:
        cells = {"taken_on": f"{day}", "preserve": JARS, "jars": jars, "why": EATEN}
        return edit_doubt(season, Edit("taken.csv", cells, 1), tuesday)

    assert asked("6", tuesday) == ""
    assert "more than the 6 of whole tomatoes" in asked("5000", tuesday)
    assert "a day still to come" in asked("1", date(2027, 12, 24))
    assert asked("many", tuesday) == ""
