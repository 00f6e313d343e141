"""Headings and rows: what is missing, what is too much, and how long that takes to say."""

import csv
import io
import time

import pytest

from model.errors import SeasonProblems
from model.intake.columns import TableKind
from model.intake.folder import TABLE_KINDS
from model.intake.record_columns import RECORD_TABLES
from tests.intake.faulty import HOUSEHOLDS, demo_tables, faults, season_from_zip, zipped
from tests.small_season import TABLES, small_season

KINDS = {kind.file: kind for kind in TABLE_KINDS}


def without_column(text: str, heading: str) -> str:
    lines = list(csv.reader(io.StringIO(text)))
    place = lines[0].index(heading)
    shorter = io.StringIO()
    csv.writer(shorter).writerows(line[:place] + line[place + 1 :] for line in lines)
    return shorter.getvalue()


@pytest.mark.parametrize("household", HOUSEHOLDS)
def test_any_column_left_out_gives_a_season_or_the_file_and_the_heading(household: str) -> None:
    tables = demo_tables(household)
    for file, text in tables.items():
        required = [column.heading for column in KINDS[file].columns if column.required]
        for heading in next(csv.reader(io.StringIO(text))):
            changed = {**tables, file: without_column(text, heading)}
            needed = any(
                heading in (name, f"{name}_{heading.rsplit('_')[-1]}") for name in required
            )
            try:
                season_from_zip(zipped(changed), "own.zip")
            except SeasonProblems as error:
                of_file = [p for p in error.problems if p.file == file]
                if needed:
                    assert len(of_file) == 1, (file, heading)
                    assert (of_file[0].row, heading in of_file[0].found) == (1, True)
            else:
                assert not needed, (file, heading)


def test_a_missing_heading_does_not_make_faults_of_what_follows_from_it() -> None:
    (problem,) = faults(beds="bed\nonly bed\n")
    assert problem.found == "the heading area_m2 or area_ft2 is missing"
    (problem,) = faults(beds="area_m2\n30\n")
    assert problem.found == "the heading bed is missing"


@pytest.mark.parametrize("kind", TABLE_KINDS, ids=lambda kind: kind.file)
def test_a_table_is_read_up_to_its_most_rows_and_no_further(kind: TableKind) -> None:
    heading = kind.columns[0].heading
    rows = [heading, *(f"x{n}" for n in range(kind.most_rows + 1))]
    name = kind.file.removesuffix(".csv")
    found = {p.found for p in faults(**{name: "\n".join(rows)}) if p.file == kind.file}
    within = {p.found for p in faults(**{name: "\n".join(rows[:-1])}) if p.file == kind.file}

    assert found == {f"it has more than {kind.most_rows:,} rows"}
    assert not any("rows" in text for text in within)
    by_year = ("plantings.csv", "harvest_log.csv", "weather.csv", "setbacks.csv", "stock.csv")
    long = {*by_year, "gifts.csv", *(k.file for k in RECORD_TABLES[1:])}
    assert kind.most_rows == (20_000 if kind.file in long else 500)


def test_thirty_years_of_plantings_are_read() -> None:
    """The demo households note up to 45 plantings a year."""
    years = range(1998, 2028)
    season = small_season(
        seasons="season,begins,ends\n" + "".join(f"{y},{y}-01-01,{y}-12-31\n" for y in years),
        plantings="season,crop,bed,sown,planted_out,first_picking,area_m2\n"
        + "".join(
            f"{y},tomato,only bed,{y}-03-20,{y}-05-28,,{0.1 + n / 1000:.3f}\n"
            for y in years
            for n in range(45)
        ),
    )

    assert len(season.plantings) == 30 * 45


def test_blank_rows_below_a_table_are_not_counted() -> None:
    assert small_season(beds=TABLES["beds.csv"] + ",\n" * 1000) == small_season()


@pytest.mark.parametrize(
    "file", ["household", "eaters", "foods", "beds", "seasons", "plantings", "preserves"]
)
def test_a_table_that_must_have_a_row_is_refused_without_one(file: str) -> None:
    headings = TABLES[f"{file}.csv"].splitlines()[0]
    found = [p for p in faults(**{file: headings}) if p.file == f"{file}.csv"]

    assert [p.found for p in found] == ["it has no row"]
    assert found[0].wanted.startswith("each row is")


def test_thousands_of_faulty_rows_are_told_within_seconds() -> None:
    """The bound is generous; about two seconds on the machine this was written on."""
    stock = "counted_on,preserve,jars,put_up_on\n" + "".join(
        f"2027-02-27,whole tomato {n:05d},6,2026-09-01\n" for n in range(20_000)
    )
    picked = "picked_on,crop,picked_kg\n" + "".join(
        f"2027-07-01,tomatto number {n:05d},1\n" for n in range(20_000)
    )
    started = time.perf_counter()
    told = faults(stock=stock, harvest_log=picked)

    assert len(told) == 40_000
    assert time.perf_counter() - started < 20


def test_a_cell_in_the_unit_of_its_heading_is_held_to_the_limits_in_that_unit() -> None:
    jars = "jar,volume_fl_oz,owned,lids\nquart,0.3,40,60\npint,16,30,40\npack,32,,\n"
    (problem,) = (p for p in faults(jars=jars) if p.file == "jars.csv")

    assert problem.found == "volume_fl_oz is '0.3'"
    assert problem.wanted.startswith("give 0.3381 to")


def test_a_row_with_a_cell_too_many_or_too_long_is_one_short_fault_and_the_others_go_on() -> None:
    beds = f"bed,area_m2\nonly bed,3,5\nother,{'x' * 100_000}\nthird,-3\n"
    told = faults(beds=beds)

    assert [(p.file, p.row) for p in told] == [("beds.csv", 2), ("beds.csv", 3), ("beds.csv", 4)]
    assert all(len(str(p)) < 100 for p in told)
