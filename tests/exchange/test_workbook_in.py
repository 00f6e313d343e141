"""Workbooks as they come: from spreadsheets, damaged, with macros, links, bombs."""

import io
import zipfile
from collections.abc import Callable
from datetime import date, datetime, time

import numpy as np
import pytest
from openpyxl import Workbook, load_workbook

from model.errors import Problem, SeasonProblems
from model.exchange.upload import read_upload
from model.exchange.workbook import workbook
from model.exchange.workbook_in import MOST_UNFOLDED_BYTES
from model.intake.folder import text_tables
from model.intake.gate import season_from_tables
from model.season.season import Season
from tests.small_season import small_season, small_tables


def tiny_workbook(**changes: str) -> bytes:
    tables = small_tables(**changes)
    return workbook(text_tables((name, text.encode()) for name, text in tables.items()))


def changed(change: Callable[[Workbook], object], **changes: str) -> bytes:
    """Give the tiny season's workbook after a change that a spreadsheet would make."""
    book = load_workbook(io.BytesIO(tiny_workbook(**changes)))
    change(book)
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def with_part(name: str, part: bytes, content: bytes | None = None) -> bytes:
    """Give a workbook with one more, or one other, part in its zip."""
    old = zipfile.ZipFile(io.BytesIO(content or tiny_workbook()))
    new = io.BytesIO()
    with old, zipfile.ZipFile(new, "w", zipfile.ZIP_DEFLATED) as archive:
        for member in old.namelist():
            if member != name:
                archive.writestr(member, old.read(member))
        archive.writestr(name, part)
    return new.getvalue()


def season(content: bytes) -> Season:
    return season_from_tables(read_upload(content, "own.xlsx"))


def faults(content: bytes) -> tuple[Problem, ...]:
    with pytest.raises(SeasonProblems) as caught:
        season(content)
    return caught.value.problems


def test_values_that_a_spreadsheet_typed_are_read_as_they_are_meant() -> None:
    def typed(book: Workbook) -> None:
        sowing = next(cell for cell in book["plantings"][1] if cell.value == "sown")
        for row in book["plantings"].iter_rows(min_row=2):
            cell = row[sowing.column - 1]
            cell.value = datetime.fromisoformat(cell.value)
        for row in book["plantings"].iter_rows(min_row=2, max_col=1):
            row[0].value = int(row[0].value)
        for row in book["frosts"].iter_rows(min_row=2, min_col=2):
            for cell in row:
                month, day = map(int, cell.value.split("-"))
                cell.value = date(2026, month, day)
        book["beds"]["B2"].value = 30.0
        book["household"]["B2"].value = True

    assert season(changed(typed)) == small_season()


def test_a_clock_time_without_its_offset_is_refused_by_the_gate() -> None:
    batches = "batch,put_up_on,finished_at,preserve,filled\nA,2027-02-01,x,sauce,7\n"

    def typed(book: Workbook) -> None:
        book["batches"]["C2"].value = datetime.fromisoformat("2027-02-01T19:40")

    (problem,) = faults(changed(typed, batches=batches))
    assert problem.found == "finished_at is '2027-02-01T19:40'"


@pytest.mark.parametrize("value", [time(19, 40), datetime.fromisoformat("2027-02-01T19:40")])
def test_a_time_where_a_number_stands_is_one_fault(value: object) -> None:
    def typed(book: Workbook) -> None:
        book["beds"]["B2"].value = value

    (problem,) = faults(changed(typed))
    assert (problem.file, problem.row) == ("beds.csv", 2)


def test_formulas_and_errors_are_told_cell_by_cell() -> None:
    def formula(book: Workbook) -> None:
        book["beds"]["B2"].value = "=15*2"
        book["eaters"]["B3"].value = '=HYPERLINK("http://example.invalid")'
        book["jars"]["B2"].value = "#REF!"

    assert faults(changed(formula)) == (
        Problem("beds.csv", 2, "area_m2 is a formula", "write its value"),
        Problem("eaters.csv", 3, "age_years is a formula", "write its value"),
        Problem("jars.csv", 2, "volume_ml is an error", "write its value"),
    )


@pytest.mark.parametrize(
    ("part", "found"),
    [
        ("xl/externalLinks/externalLink1.xml", "it is linked to other workbooks"),
        ("xl/vbaProject.bin", "it holds macros"),
        ("xl/connections.xml", "it fetches data from elsewhere"),
        ("xl/embeddings/oleObject1.bin", "it holds other files"),
    ],
)
def test_a_workbook_that_does_more_than_hold_values_is_refused(part: str, found: str) -> None:
    (problem,) = faults(with_part(part, b"x"))

    assert (problem.file, problem.found) == ("own.xlsx", found)


def test_entities_that_unfold_without_bound_are_refused_unread() -> None:
    laughs = b'<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a "ha">' + b"".join(
        b'<!ENTITY a%d "%s">' % (n, b"&a%d;" % (n - 1) * 10) for n in range(1, 30)
    )
    for part in (laughs + b"]><l>&a29;</l>", (laughs + b"]><l/>").decode().encode("utf-16")):
        (problem,) = faults(with_part("xl/sharedStrings.xml", part))
        assert "defines words of its own" in problem.found


def test_a_workbook_that_unfolds_to_too_much_is_refused_unread() -> None:
    bomb = with_part("xl/media/image1.png", b"\0" * (MOST_UNFOLDED_BYTES + 1))
    assert len(bomb) < 200_000

    (problem,) = faults(bomb)
    assert problem.found == "the workbook unfolds to too much"


def test_a_row_far_below_is_refused_at_once() -> None:
    sheet = (
        b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
        b'<row r="1"><c r="A1" t="inlineStr"><is><t>bed</t></is></c>'
        b'<c r="B1" t="inlineStr"><is><t>area_m2</t></is></c></row>'
        b'<row r="999999999999"><c><v>1</v></c></row></sheetData></worksheet>'
    )
    with zipfile.ZipFile(io.BytesIO(tiny_workbook())) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    beds = next(
        name for name, part in parts.items() if name.endswith(".xml") and b"worksheet" in part[:200]
    )
    told = faults(with_part(beds, sheet))

    assert any("below row 50,000" in problem.found for problem in told)


def test_a_sheet_of_another_name_is_told_unless_it_is_blank() -> None:
    assert season(changed(lambda book: book.create_sheet("Sheet1"))) == small_season()

    def other(book: Workbook) -> None:
        book.create_sheet("habbits")["A1"].value = "habit"

    (problem,) = faults(changed(other))
    assert problem.wanted == "did you mean habits.csv?"


def test_a_missing_sheet_and_a_faulty_one_are_told_together() -> None:
    def without(book: Workbook) -> None:
        del book["beds"]
        book["jars"]["C2"].value = -4

    told = [(p.file, p.row) for p in faults(changed(without))]
    assert told == [("beds.csv", 0), ("jars.csv", 2)]


def test_hidden_sheets_and_rows_links_and_formats_change_nothing() -> None:
    def dressed(book: Workbook) -> None:
        book["beds"].sheet_state = "hidden"
        book["beds"].row_dimensions[2].hidden = True
        book["eaters"]["A2"].hyperlink = "http://example.invalid"
        book["eaters"].auto_filter.ref = "A1:C3"

    assert season(changed(dressed)) == small_season()


@pytest.mark.parametrize("content", [b"", b"PK", b"\xd0\xcf\x11\xe0" * 200, b"bed,area_m2\n"])
def test_what_is_neither_zip_nor_workbook_is_one_fault(content: bytes) -> None:
    (problem,) = faults(content)

    assert (problem.file, problem.row) == ("own.xlsx", 0)


def test_half_a_gigabyte_is_refused_by_its_size() -> None:
    (problem,) = faults(b"PK" + bytes(500_000_000))

    assert problem.found == "the file is too large"


def test_flipped_bytes_of_any_part_give_a_season_or_faults_and_nothing_else() -> None:
    """Parts are damaged before they are packed, so that no checksum gives the damage away."""
    with zipfile.ZipFile(io.BytesIO(tiny_workbook())) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    names, chance = sorted(parts), np.random.default_rng(20270315)
    refused = 0
    for n in range(300):
        name = names[n % len(names)]
        damaged = bytearray(parts[name])
        for _ in range(chance.integers(1, 6)):
            damaged[chance.integers(len(damaged))] = int(chance.integers(256))
        try:
            season(with_part(name, bytes(damaged)))
        except SeasonProblems:
            refused += 1

    assert refused > 100
