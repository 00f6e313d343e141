"""Process times as looked up: shown in full, or refused with the ways that remain."""

from datetime import date

from streamlit.testing.v1 import AppTest

from tests.dashboard.steps import labelled, look, words

PEACHES = "Peaches, halved or sliced"
BEANS = "Beans, snap (green, wax, Italian), pieces"


FORM_ALONE = """
import model
from importlib.resources import files
from dashboard.kept import DEMOS
from dashboard.forms.process_form import process_form

process_form(model.read_season(str(files("demo_data") / DEMOS["{household}"])))
"""


def process_form(household: str = "Alder Lane") -> AppTest:
    return AppTest.from_string(FORM_ALONE.format(household=household), default_timeout=60).run()


def asked(product: str, method: str, pack: str, jar: str) -> AppTest:
    """Fill the form in; its altitude is the household's own."""
    app = process_form()
    app.selectbox(key="process_product").set_value(product)
    app.selectbox(key="process_method").set_value(method)
    app.radio(key="process_pack").set_value(pack)
    app.text_input(key="process_jar").set_value(jar)
    return app.run()


def test_nothing_is_assumed_before_it_is_chosen() -> None:
    app = process_form()
    app.selectbox(key="process_product").set_value(PEACHES)
    app.selectbox(key="process_method").set_value("boiling water").run()

    assert "minutes in" not in words(app)
    assert any("Nothing is assumed" in caption.value for caption in app.caption)


def test_a_process_is_shown_as_looked_up() -> None:
    app = asked(PEACHES, "boiling water", "hot", "quart")
    labelled(app, "text_input", "Altitude").set_value("762 m").run()

    # USDA Complete Guide to Home Canning, Peaches: hot pack, quarts, 1,001-3,000 ft: 30 min
    assert "30 minutes in boiling water" in words(app)
    assert "Hot pack, quart jar, 1,001-3,000 ft" in words(app)


def test_a_pressure_names_its_gauge() -> None:
    app = asked(BEANS, "pressure, dial gauge", "hot", "pint")

    # USDA Complete Guide to Home Canning, Beans, snap: pints 20 min, 12 psi at 2,001-4,000 ft
    assert "20 minutes at 12 psi, dial gauge" in words(app)


def test_the_altitude_is_given_in_the_household_s_own_unit() -> None:
    app = process_form()
    assert labelled(app, "text_input", "Altitude").value == "640 m"
    app = process_form("Two Rivers")

    assert labelled(app, "text_input", "Altitude").value == "1180 ft"


def test_without_an_altitude_no_figure_is_shown() -> None:
    app = asked(PEACHES, "boiling water", "hot", "quart")
    labelled(app, "text_input", "Altitude").set_value("").run()

    assert "Refused" in app.error[0].value
    assert "minutes in" not in words(app)


def test_a_low_acid_product_without_pressure_is_refused_with_the_ways_that_remain() -> None:
    app = asked(BEANS, "boiling water", "hot", "pint")

    assert "low in acid" in app.error[0].value
    assert "freeze" in words(app)


def said(what: str) -> AppTest:
    """Say what it is, where it stands in no list."""
    app = process_form()
    app.text_input(key="process_product_said").set_value(what)
    return app.run()


def test_what_is_no_tested_product_is_refused_as_soon_as_it_is_said() -> None:
    app = said("garlic in oil")

    # the food-safety inspectors' leaflet of the reference table: nothing in oil on a shelf
    assert "nothing in oil is a shelf product" in app.error[0].value
    assert "refrigerate and use within 4 days" in words(app)


def test_what_is_said_goes_before_what_was_chosen_and_is_found_by_its_words() -> None:
    app = said("sliced or halved peaches")
    app.selectbox(key="process_product").set_value(BEANS)
    app.selectbox(key="process_method").set_value("boiling water")
    app.radio(key="process_pack").set_value("hot")
    app.text_input(key="process_jar").set_value("quart").run()

    assert not app.error
    assert "boiling water" in words(app)
    assert any(m.value.startswith(f"**{PEACHES}**") for m in app.markdown)


def test_what_is_put_up_this_week_stands_with_its_process_the_acid_second(app: AppTest) -> None:
    look(app, "Alder Lane", date(2027, 8, 16), "views/this_week.py")
    shown = next(m.value for m in app.markdown if m.value.startswith("**Crushed tomatoes**"))
    figure, acid, *_, holds = shown.split("  \n")

    # USDA Complete Guide to Home Canning, Tomatoes, crushed: quarts at 1,001-3,000 ft: 50 min
    assert figure.endswith("**50 minutes in boiling water**")
    assert acid.startswith("Acid goes into every jar: ")
    assert holds == "Hot pack, 850 ml jar (as tested for a quart), 1,001-3,000 ft (305-914 m)"
    assert any("Complete Guide to Home Canning" in caption.value for caption in app.caption)
