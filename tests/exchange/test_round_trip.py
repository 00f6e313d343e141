"""What goes out comes in again identical: text for text, season for season."""

import csv
import io
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from model.errors import SeasonProblems
from model.exchange.csv_out import csv_zip
from model.exchange.upload import read_upload
from model.exchange.workbook import workbook
from model.intake.folder import read_tables, text_tables
from model.intake.gate import season_from_tables
from model.intake.plain_text import unseen_character
from model.intake.tables import SeasonTables, TextTable
from tests.intake.faulty import DEMO, HOUSEHOLDS
from tests.small_season import small_tables

WAYS = (csv_zip, workbook)
OUT_AND_IN = pytest.mark.parametrize("out", WAYS, ids=lambda way: way.__name__)


def small(**changes: str | None) -> SeasonTables:
    return text_tables((name, text.encode()) for name, text in small_tables(**changes).items())


@OUT_AND_IN
@pytest.mark.parametrize("household", HOUSEHOLDS)
def test_an_invented_household_comes_back_identical(out: object, household: str) -> None:
    tables = read_tables(DEMO / household)
    back = read_upload(out(tables), "out")

    assert back == tables
    assert season_from_tables(back) == season_from_tables(tables)


def test_the_zip_holds_the_very_files_of_the_invented_household() -> None:
    """Word for word, so that a person can go on with either."""
    with zipfile.ZipFile(io.BytesIO(csv_zip(read_tables(DEMO / "alder_lane")))) as archive:
        for name in archive.namelist():
            own = (DEMO / "alder_lane" / name).read_text(encoding="utf-8")
            assert list(csv.reader(io.StringIO(archive.read(name).decode()))) == list(
                csv.reader(io.StringIO(own))
            )
        assert set(archive.namelist()) == {p.name for p in (DEMO / "alder_lane").glob("*.csv")}


def test_the_same_tables_give_the_same_bytes() -> None:
    assert csv_zip(small()) == csv_zip(read_upload(csv_zip(small()), "own.zip"))


seen = st.text(max_size=40).filter(lambda text: not unseen_character(text))
begun = st.sampled_from(["", *"=+-@'", "'=", "_x0041_", "#N/A", "<b>", "&amp;", "0", "1e5"])
texts_kept = st.builds(lambda begin, rest: (begin + rest).strip(), begun, seen)


@OUT_AND_IN
@settings(max_examples=60)
@given(texts=st.lists(texts_kept, min_size=1, max_size=8))
def test_any_note_comes_back_letter_for_letter(out: object, texts: list[str]) -> None:
    rows = tuple((n, (f"bed {n}", "3", text)) for n, text in enumerate(texts, start=2))
    beds = TextTable(("bed", "area_m2", "note"), rows)
    tables = SeasonTables({**small().tables, "beds.csv": beds}, ())

    assert read_upload(out(tables), "out").tables["beds.csv"] == beds


ACTED_ON = ["=1+1", "+1+1", "-1+1", "@SUM(A1)", '=HYPERLINK("http://x.invalid")', "\uff1d1", "'=1"]


@pytest.mark.parametrize("text", ACTED_ON)
def test_a_cell_that_a_spreadsheet_would_act_on_goes_out_neutral(text: str) -> None:
    quoted = text.replace('"', '""')
    tables = small(beds=f'bed,area_m2,note\nonly bed,30,"{quoted}"\n')
    with zipfile.ZipFile(io.BytesIO(csv_zip(tables))) as archive:
        cell = list(csv.reader(io.StringIO(archive.read("beds.csv").decode())))[1][2]
    sheet = load_workbook(io.BytesIO(workbook(tables)))["beds"]

    assert cell == sheet["C2"].value == f"'{tables.tables['beds.csv'].rows[0][1][2]}"
    assert sheet["C2"].data_type == "s"


@pytest.mark.parametrize("number", ["-3.5", "+2", "-1e-3", "-.5"])
def test_a_plain_number_goes_out_as_it_is(number: str) -> None:
    tables = small(weather=f"day,high_c,low_c\n2027-05-01,17,{number}\n")
    with zipfile.ZipFile(io.BytesIO(csv_zip(tables))) as archive:
        assert archive.read("weather.csv").decode().endswith(f",{number}\n")


@OUT_AND_IN
def test_rows_keep_their_numbers_where_rows_between_them_are_blank(out: object) -> None:
    tables = small(beds="bed,area_m2\n\n\nonly bed,30\n,\nother,4\n")

    assert [number for number, _ in tables.tables["beds.csv"].rows] == [4, 6]
    assert read_upload(out(tables), "out") == tables


@OUT_AND_IN
def test_two_entries_that_are_the_same_come_back_as_two(out: object) -> None:
    """A household picks the same twice a day; only in a file that looks copied twice."""
    row = ("2027-08-01", "tomato", "2")
    log = TextTable(("picked_on", "crop", "picked_kg"), ((2, row), (3, row), (4, row)))
    tables = SeasonTables({**small().tables, "harvest_log.csv": log}, ())
    back = season_from_tables(read_upload(out(tables), "out"))

    assert back == season_from_tables(tables)
    assert len(back.pickings) == 3


@OUT_AND_IN
def test_tables_at_fault_do_not_go_out(out: object) -> None:
    with pytest.raises(SeasonProblems, match="UTF-8"):
        out(text_tables([("beds.csv", b"\xff")]))


def test_a_file_s_name_decides_nothing(tmp_path: Path) -> None:
    for name in ("own.xlsx", "own.zip", "own.txt", "../../own"):
        assert read_upload(workbook(small()), name) == small()
        assert read_upload(csv_zip(small()), name) == small()
