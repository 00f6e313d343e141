"""What spreadsheets, other countries and ill will put into a file: one clear message each."""

import io
import time
import tracemalloc
import zipfile

import pytest

from model.errors import Problem
from model.intake.folder import MOST_BYTES
from tests.intake.faulty import faults, season_from_zip, zip_faults, zipped
from tests.small_season import TABLES, small_season, small_tables

LOG = "picked_on,crop,picked_kg\n"


def of_bytes(beds: bytes) -> tuple[Problem, ...]:
    """Give the faults of the tiny season whose beds are these bytes."""
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as archive:
        for name, text in small_tables(beds=None).items():
            archive.writestr(name, text)
        archive.writestr("beds.csv", beds)
    return zip_faults(content.getvalue())


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_one_fault_that_says_how_to_save(encoding: str) -> None:
    (problem,) = of_bytes("bed,area_m2\nonly bed,30\n".encode(encoding))

    assert (problem.file, problem.wanted) == ("beds.csv", "save it as CSV UTF-8")
    assert "UTF-16" in problem.found or "NUL" in problem.found


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252", "mac-roman"])
def test_another_country_s_letters_are_told_with_their_row(encoding: str) -> None:
    (problem,) = of_bytes("bed,area_m2\nonly bed,30\nB\u00f6den,3\n".encode(encoding))

    assert (problem.file, problem.row, problem.wanted) == ("beds.csv", 3, "save it as CSV UTF-8")


def test_a_byte_order_mark_is_no_letter_of_the_first_heading() -> None:
    assert small_season(beds="\ufeff" + TABLES["beds.csv"]) == small_season()


def test_semicolons_with_decimal_commas_are_one_fault() -> None:
    (problem,) = faults(beds="bed;area_m2\nonly bed;3,5\nother;4,5\n")

    assert problem.row == 1
    assert problem.wanted == "save it as CSV with commas, and with points in numbers"


def test_a_quoted_decimal_comma_is_told_with_the_point() -> None:
    (problem,) = faults(beds='bed,area_m2\nonly bed,"3,5"\n')

    assert problem.found == "area_m2 is '3,5'"
    assert problem.wanted == "write a plain number with a point, such as 3.5, and no comma"


def test_a_date_that_is_two_days_is_refused_with_both() -> None:
    (problem,) = faults(harvest_log=f"{LOG}03/04/2027,tomato,2\n")

    assert problem.found == (
        "picked_on is '03/04/2027', which can be read as 2027-04-03 or as 2027-03-04"
    )


@pytest.mark.parametrize("text", ["28/05/2027", "05/05/2027", "28.5.2027", "46480", "May 28 2027"])
def test_other_dates_are_refused_without_guessing(text: str) -> None:
    (problem,) = faults(harvest_log=f"{LOG}{text},tomato,2\n")

    assert problem.found == f"picked_on is {text!r}"
    assert problem.wanted == "write a date as year-month-day, such as 2027-04-03"


def test_a_row_of_a_log_word_for_word_again_is_told_with_the_first() -> None:
    row = "2027-08-01,tomato,2\n"
    (problem,) = faults(harvest_log=f"{LOG}{row}2027-08-01,tomato,2.5\n{row}")

    assert (problem.row, problem.found) == (4, "it is row 2 again, word for word")
    assert "note" in problem.wanted


def test_two_rows_that_a_note_tells_apart_are_two_pickings() -> None:
    noted = LOG.replace("\n", ",note\n")
    season = small_season(harvest_log=f"{noted}2027-08-01,tomato,2,\n2027-08-01,tomato,2,evening\n")

    assert [picking.kg for picking in season.pickings] == [2.0, 2.0]


def test_amounts_that_cannot_be_are_told_with_what_can() -> None:
    (problem,) = faults(harvest_log=f"{LOG}2027-08-01,tomato,1e9\n")
    assert (problem.found, problem.wanted) == ("picked_kg is '1e9'", "give 0 to 10,000")

    (problem,) = faults(stock="counted_on,preserve,jars,put_up_on\n2027-02-27,sauce,-3,\n")
    assert (problem.found, problem.wanted) == ("jars is '-3'", "give 0 to 100,000")


@pytest.mark.parametrize(
    "wild",
    [
        '"the ""good"" bed"',
        "<b>bed</b>",
        "<img src=x onerror=alert(1)>",
        "\"=cmd|' /C calc'!A0\"",
        "'=1+1",
        "+1",
        "-1+1",
        "@SUM(A1)",
    ],
)
def test_a_name_with_quotes_html_or_a_formula_is_one_fault(wild: str) -> None:
    plantings = TABLES["plantings.csv"].replace("only bed", wild)
    told = faults(beds=f"bed,area_m2\n{wild},30\n", plantings=plantings)

    assert {(p.file, p.row) for p in told} == {
        ("beds.csv", 2),
        ("plantings.csv", 2),
        ("plantings.csv", 3),
    }


@pytest.mark.parametrize(
    ("letter", "name"),
    [
        ("\u202e", "right-to-left override"),
        ("\u2066", "left-to-right isolate"),
        ("\u2069", "pop directional isolate"),
        ("\u200e", "left-to-right mark"),
        ("\u200f", "right-to-left mark"),
        ("\u200b", "zero width space"),
        ("\u200d", "zero width joiner"),
        ("\u00ad", "soft hyphen"),
        ("\ufeff", "zero width no-break space"),
        ("\x07", "a control character"),
        ("\u2028", "line separator"),
        ("\ufffd", "replacement character"),
    ],
)
def test_a_character_that_is_not_seen_is_named(letter: str, name: str) -> None:
    (problem,) = faults(beds=f"bed,area_m2,note\nonly bed,30,\nother b{letter}ed,3,\n")
    assert (problem.row, f"U+{ord(letter):04X} ({name})" in problem.found) == (3, True)
    assert letter not in problem.found

    (in_a_note,) = faults(beds=f"bed,area_m2,note\nonly bed,30,so{letter}so\n")
    assert in_a_note.row == 2


@pytest.mark.parametrize(
    "name", ["\u05e2\u05e8\u05d5\u05d2\u05d4", "\u062d\u0648\u0636", "\U0001f345 bed", "\u7551"]
)
def test_letters_of_any_script_and_emoji_are_just_letters(name: str) -> None:
    season = small_season(
        beds=f"bed,area_m2\n{name},30\n",
        plantings=TABLES["plantings.csv"].replace("only bed", name),
    )

    assert season.beds[0].name == name


def test_a_zip_within_a_zip_is_never_unfolded() -> None:
    bomb = zipped({"beds.csv": " " * 50_000_000})
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as archive:
        for name, text in small_tables().items():
            archive.writestr(name, text)
        archive.writestr("inner.zip", bomb)
    assert season_from_zip(content.getvalue(), "own.zip") == small_season()

    (problem,) = of_bytes(bomb)
    assert problem.file == "beds.csv"


def test_half_a_gigabyte_is_refused_by_its_size_before_anything_is_read() -> None:
    upload = bytes(500_000_000)
    tracemalloc.start()
    began = time.perf_counter()
    (problem,) = zip_faults(upload)
    took, (_, peak) = time.perf_counter() - began, tracemalloc.get_traced_memory()
    tracemalloc.stop()

    assert (problem.found, str(MOST_BYTES // 1_000_000)) == ("the file is too large", "10")
    assert took < 1.0
    assert peak < 1_000_000
