"""Every page read as a household of US and one of UK words reads it."""

import json
import re
from datetime import date

import pytest
from streamlit.testing.v1 import AppTest

from model.reference.read import table
from tests.dashboard.steps import look, tables, unfold
from tests.dashboard.test_how_we_write import write_as
from tests.dashboard.test_pages import MORE
from tests.dashboard.visiting import LONG_ANSWERS

# Batches, jars and the tested products keep the names they were given.
OWN_NAMES = ("batch", "product", "jar", "source")
# What stands in the notes is shown as it stands; what was published, as it was published.
AS_STORED = (
    "One preserve in full",
    "Correct or add",
    "What was written",
    "Guesses",
    "Judgements",
    "How we write",
    "Process times",
    "Process",
    "Labels",
)
# A published amount has both units: 2 tbsp (30 ml); a jar or pack keeps its name of the notes.
METRIC = r"(?<!freezer pack )(?<![(\d.])\d[\d.,]* ?(?:kg|g|km|cm|m²|m|l|litres?|ml)\b(?! bag| jar)"
DAYS = {"Alder Lane": date(2027, 8, 16), "Two Rivers": date(2027, 1, 25)}
# Answers that plan many times over are read in one of the tongues.
READ_ONCE = {"Two Rivers": LONG_ANSWERS}


def foreign(tongue: str) -> re.Pattern[str]:
    """Give the words of the table that a household of a tongue would not use."""
    rows = table("words_us_uk")
    own = {row[tongue.lower()].lower() for row in rows}
    others = sorted({row["word"].lower() for row in rows} - own, key=len, reverse=True)
    kept = "|".join(sorted(own, key=len, reverse=True))
    return re.compile(rf"\b(?:{kept})\b|\b({'|'.join(others)})\b", re.IGNORECASE)


def published(text: str) -> bool:
    """Say whether a text is a process, caution or source, shown as it was published."""
    cautions = {row["caution"] for row in table("cautions")}
    titles = {row["title"] for row in table("sources")}
    card = "Headspace" in text
    return card or text.removeprefix("- ") in cautions or any(title in text for title in titles)


def read(app: AppTest) -> list[str]:
    """Give everything a person reads on a page: words, choices, cells, charts."""
    choosers = [*app.selectbox, *app.multiselect, *app.get("button_group")]
    options = [
        str(option)
        for chooser in choosers
        if chooser.label != "Tested product"
        for option in chooser.options
    ]
    labels = [
        w.label for w in [*app.number_input, *app.button, *app.subheader] if hasattr(w, "label")
    ]
    cells = [
        str(cell)
        for frame in tables(app)
        for name in frame.columns
        if name not in OWN_NAMES
        for cell in frame[name]
    ]
    charts = [json.loads(chart.proto.spec)["description"] for chart in app.get("vega_lite_chart")]
    titles = [title.value for title in app.title]
    told = [e.value for e in [*app.markdown, *app.caption, *app.text] if not published(e.value)]
    return [*told, *titles, *options, *labels, *cells, *charts]


@pytest.mark.parametrize(
    ("household", "units", "tongue"),
    [("Alder Lane", "US", "US"), ("Two Rivers", "metric", "UK")],
)
def test_no_page_says_a_word_of_the_other_tongue(
    app: AppTest, household: str, units: str, tongue: str
) -> None:
    look(app, household, DAYS[household], "views/household.py")
    write_as(app, units, "2027-11-28", tongue)
    others, found = foreign(tongue), set()
    for page, control in MORE.items():
        app.switch_page(page).run()
        for part in app.segmented_control(key=control).options:
            if part in AS_STORED or part in READ_ONCE.get(household, ()):
                continue
            unfold(app.segmented_control(key=control).set_value(part).run())
            assert not app.exception
            for text in read(app):
                found |= {
                    (page, part, hit[1], text[:200]) for hit in others.finditer(text) if hit[1]
                }
                if units == "US":
                    found |= {(page, part, unit, text[:200]) for unit in re.findall(METRIC, text)}
    assert not sorted(found)
