"""The places offer their sheets of paper, and show what stands on them."""

from datetime import date

from streamlit.testing.v1 import AppTest

from tests.dashboard.steps import look, part, table_with, tables, unfold, words

SPRING, GLUT = date(2027, 3, 15), date(2027, 8, 16)


def sheets(page: AppTest) -> list[str]:
    return [one.proto.label for one in page.get("download_button")]


def test_spring_tells_what_must_be_in_the_house_by_when(app: AppTest) -> None:
    page = unfold(part(look(app, "Alder Lane", SPRING, "views/spring.py"), "Buy list"))
    rows = table_with(page, "what", "in_house_by", "to_buy")

    assert not page.exception
    assert sheets(page) == ["Print the buy list (PDF)"]
    told = dict(
        zip(rows["what"], zip(rows["in_house_by"], rows["to_buy"], strict=True), strict=True)
    )
    assert told["parsnip to sow"] == ("12 Apr 2027", "enough for 3 m²")
    assert told["salt"][1] == "as the recipe says"
    assert "How much else goes in stands only in the tested recipe" in words(page)
    assert any("850 ml jar" in set(t["what"]) for t in tables(page, "what") if "what" in t)


def test_this_week_offers_the_sheet_for_the_fridge_door(app: AppTest) -> None:
    page = look(app, "Alder Lane", GLUT, "views/this_week.py")

    assert not page.exception
    assert sheets(page) == ["Print the sheet for the fridge door (PDF)"]


def test_the_preserving_day_is_printed_as_it_stands(app: AppTest) -> None:
    page = look(app, "Alder Lane", GLUT, "views/preserving_day.py")

    assert not page.exception
    assert sheets(page) == ["Print the day (PDF)"]


def test_labels_are_offered_for_jars_that_were_looked_at_alone(app: AppTest) -> None:
    page = part(look(app, "Alder Lane", GLUT, "views/larder.py"), "Labels")

    assert not page.exception
    assert "nobody has looked at the seals: 2027-08-15 corn relish" in words(page)
    assert "2027-08-15 corn relish" not in page.multiselect[0].options
    assert page.multiselect[0].value
    assert sheets(page) == ["Print the labels (PDF)"]
    for number in page.number_input:
        number.set_value(0)
    page.run()
    assert sheets(page) == []


def test_an_empty_sheet_from_paper_writes_nothing(app: AppTest) -> None:
    page = part(look(app, "Alder Lane", GLUT, "views/log.py"), "From paper")

    assert not page.exception
    next(one for one in page.button if one.label == "Save").click().run()
    assert page.warning[-1].value == "Nothing is typed yet."
    assert "All rows are written together, or none" in words(page)
