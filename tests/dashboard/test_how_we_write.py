"""The household's own units, dates and words: what is read changes, what is kept does not."""

import csv
import io
import zipfile

from streamlit.testing.v1 import AppTest

import model
from dashboard import kept
from tests.dashboard.steps import labelled, part


def exported() -> bytes:
    household = next(one for one in kept.households() if one.name == "Alder Lane")
    return model.csv_zip(kept.store().tables(household.household_id))


def write_as(app: AppTest, units: str, dates: str, tongue: str) -> None:
    app.switch_page("views/household.py").run()
    part(app, "How we write")
    labelled(app, "radio", "Units").set_value(units)
    labelled(app, "radio", "Dates").set_value(dates)
    labelled(app, "radio", "Words").set_value(tongue).run()
    labelled(app, "button", "Write so").click().run()
    assert not app.exception
    assert not app.error


def test_switched_to_and_fro_the_exported_notes_are_what_they_were(app: AppTest) -> None:
    """A heading stays once it was used; from then on not a byte differs."""
    at_first = tables_in(exported())
    write_as(app, "US", "Nov 28, 2027", "US")
    meanwhile = tables_in(exported())
    write_as(app, "metric", "2027-11-28", "US")
    write_as(app, "metric", "28 Nov 2027", "UK")
    once = exported()
    back = tables_in(once)
    write_as(app, "US", "2027-11-28", "UK")
    write_as(app, "metric", "28 Nov 2027", "UK")

    assert exported() == once
    for there in (meanwhile, back):
        assert there.keys() == at_first.keys()
        assert {n for n in there if there[n] != at_first[n]} == {"household.csv"}
    assert filled(back) == filled(at_first) != filled(meanwhile)


def filled(tables: dict[str, bytes]) -> list[dict[str, str]]:
    rows = csv.DictReader(tables["household.csv"].decode().splitlines())
    return [{name: cell for name, cell in row.items() if cell} for row in rows]


def tables_in(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}
