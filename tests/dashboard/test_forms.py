"""Notes brought in, changes tried, process times looked up."""

import io
import zipfile
from datetime import date

import pytest
from streamlit.testing.v1 import AppTest

from tests.small_season import TABLES


def zipped(**changes: str) -> bytes:
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as archive:
        for name, text in TABLES.items():
            archive.writestr(name, changes.get(name.removesuffix(".csv"), text))
    return content.getvalue()


def bring_in(app: AppTest, name: str, content: bytes) -> AppTest:
    app.radio(key="household").set_value("My own").run()
    app.file_uploader(key="own_notes").set_value((name, content, "application/zip"))
    return app.run()


def test_a_household_s_own_notes_are_planned(app: AppTest) -> None:
    bring_in(app, "ours.zip", zipped())

    assert not app.exception
    assert not app.error
    assert "bush bean" in set(app.dataframe[0].value["crop"])


def test_faulty_notes_list_every_fault_and_leave_the_notes_in_use(app: AppTest) -> None:
    plantings = TABLES["plantings.csv"].replace("bush bean", "bush baen")
    bring_in(app, "ours.zip", zipped(plantings=plantings, beds="bed,area_m2\nonly bed,-3\n"))
    told = " ".join(element.value for element in app.text)

    assert "the notes in use stay" in app.error[0].value
    assert "bush bean" in told
    assert "beds.csv row 2" in told
    assert len(app.dataframe[0].value) == 27


@pytest.mark.parametrize("content", [b"", b"not a zip", b"PK\x03\x04" + b"\x00" * 60])
def test_what_is_no_zip_is_refused(app: AppTest, content: bytes) -> None:
    bring_in(app, "ours.zip", content)

    assert not app.exception
    assert app.error


def test_a_loss_shows_the_new_plan_beside_the_old(app: AppTest) -> None:
    app.date_input[0].set_value(date(2027, 8, 16)).run()
    app.switch_page("views/this_week.py").run()
    app.segmented_control(key="week_more").set_value("Something is gone").run()
    app.selectbox(key="change_loss").set_value("bush bean").run()
    app.slider(key="loss_bush bean").set_value(80).run()
    changed = [table.value for table in app.dataframe if "lasts_after" in table.value.columns]

    assert not app.exception
    assert "green beans" in set(changed[0]["food"])


def test_a_target_shows_the_new_jars_beside_the_old(app: AppTest) -> None:
    app.segmented_control(key="spring_more").set_value("Try a change").run()
    app.selectbox(key="change_preserve").set_value("strawberry jam").run()
    app.number_input(key="target_strawberry jam").set_value(2).run()
    changed = next(table.value for table in app.dataframe if "after" in table.value.columns)
    row = changed[changed["preserve"] == "strawberry jam"].iloc[0]

    assert not app.exception
    assert row["after"] < row["before"]


def process_form(app: AppTest) -> AppTest:
    app.switch_page("views/this_week.py").run()
    return app.segmented_control(key="week_more").set_value("Process times").run()


def told(app: AppTest) -> str:
    return " ".join(element.value for element in app.markdown)


def test_a_process_is_shown_as_looked_up(app: AppTest) -> None:
    process_form(app)
    app.selectbox(key="process_product").set_value("Peaches, halved or sliced")
    app.selectbox(key="process_method").set_value("boiling water")
    app.text_input(key="process_jar").set_value("quart")
    app.text_input(key="process_altitude").set_value("762 m").run()

    assert "30 minutes" in told(app)
    assert "1,001" in told(app)


def test_without_an_altitude_no_figure_is_shown(app: AppTest) -> None:
    process_form(app)
    app.selectbox(key="process_product").set_value("Peaches, halved or sliced")
    app.text_input(key="process_altitude").set_value("").run()

    assert "Refused" in app.error[0].value
    assert "minutes at" not in told(app)


def test_a_low_acid_product_without_pressure_is_refused_with_the_ways_that_remain(
    app: AppTest,
) -> None:
    process_form(app)
    app.selectbox(key="process_product").set_value("Beans, snap (green, wax, Italian), pieces")
    app.selectbox(key="process_method").set_value("boiling water").run()

    assert "low in acid" in app.error[0].value
    assert "freeze" in told(app)


def test_what_is_in_no_table_is_refused(app: AppTest) -> None:
    process_form(app)
    app.selectbox(key="process_product").set_value("something else ...").run()
    app.text_input(key="process_other").set_value("pumpkin butter").run()

    assert "Refused" in app.error[0].value
