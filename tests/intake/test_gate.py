import csv
import io
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from model.errors import Problem, SeasonProblems
from model.intake.gate import read_season
from model.season.ledger import stock
from tests.intake.faulty import HOUSEHOLDS, demo_tables, faults, season_from_zip, zipped
from tests.small_season import TABLES, small_season, small_tables, write_folder


def test_a_folder_and_its_zip_give_the_same_season(tmp_path: Path) -> None:
    from_folder = read_season(write_folder(tmp_path))

    assert from_folder == season_from_zip(zipped(small_tables()), "own.zip")
    inside = {f"my notes/{name}": text for name, text in small_tables().items()}
    assert from_folder == season_from_zip(zipped(inside), "own.zip")


def test_both_invented_households_pass(alder_lane: object, two_rivers: object) -> None:
    assert alder_lane != two_rivers


def test_every_fault_is_told_at_once_with_file_and_row() -> None:
    problems = faults(
        beds="bed,area_m2\nonly bed,thirty\n",
        eaters="eater,age_years,sex\nAnn,40.5,female\nBen,42,duck\n",
        jars="jar,volume_ml,owned,lids\nquart,946,-4,60\npint,473,30,40\npack,750,,\n",
    )

    told = {(p.file, p.row) for p in problems}
    assert {("beds.csv", 2), ("eaters.csv", 2), ("eaters.csv", 3), ("jars.csv", 2)} <= told
    assert all(p.found and p.wanted for p in problems)


def test_an_unknown_crop_is_answered_with_the_nearest_names() -> None:
    foods = TABLES["foods.csv"].replace("bush bean", "bush been")
    problem = next(p for p in faults(foods=foods) if p.file == "foods.csv")

    assert "bush been" in problem.found
    assert "bush bean" in problem.wanted


def test_a_crop_may_be_called_by_its_other_names() -> None:
    foods = TABLES["foods.csv"].replace("bush bean", "Dwarf French bean")

    assert small_season(foods=foods) == small_season()


def test_a_bed_that_does_not_exist_is_named_with_those_that_do() -> None:
    plantings = TABLES["plantings.csv"].replace("bush bean,only bed", "bush bean,onyl bed")
    (problem,) = faults(plantings=plantings)

    assert problem == Problem(
        "plantings.csv", 2, "bed 'onyl bed' is not in beds.csv", "use one of: only bed"
    )


@pytest.mark.parametrize(
    ("column", "text", "found"),
    [
        ("2027-05-28", "28/05/2027", "is '28/05/2027'"),
        ("2027-05-28", "03/04/2027", "is '03/04/2027'"),
        ("2027-05-28", "2027-02-30", "there is no such day"),
        ("2027-05-28", "1027-05-28", "1027"),
    ],
)
def test_only_iso_dates_pass(column: str, text: str, found: str) -> None:
    plantings = TABLES["plantings.csv"].replace(column, text, 1)

    assert any(found in p.found for p in faults(plantings=plantings))


@pytest.mark.parametrize("text", ["3,5", "nan", "inf", "-2", "1e9", "=1+1", "a lot", "4x"])
def test_numbers_that_are_none_or_out_of_bounds_are_refused(text: str) -> None:
    quoted = f'"{text}"' if "," in text else text
    assert any(p.file == "beds.csv" for p in faults(beds=f"bed,area_m2\nonly bed,{quoted}\n"))


def test_a_decimal_comma_shows_as_one_cell_too_many() -> None:
    (problem,) = faults(beds="bed,area_m2\nonly bed,3,5\n")

    assert "write 3.5, not 3,5" in problem.wanted


def test_semicolons_bom_and_wrong_encodings_are_told_apart(tmp_path: Path) -> None:
    (problem,) = faults(beds="bed;area_m2\nonly bed;30\n")
    assert "not separated by commas" in problem.found

    folder = write_folder(tmp_path)
    (folder / "beds.csv").write_bytes(b"\xef\xbb\xbfbed,area_m2\nonly bed,30\n")
    assert read_season(folder) == small_season()

    (folder / "beds.csv").write_bytes("bed,area_m2\nB\u00f6den,30\n".encode("latin-1"))
    with pytest.raises(SeasonProblems, match="not UTF-8"):
        read_season(folder)


def test_unknown_missing_and_doubled_headings_are_told() -> None:
    assert "did you mean area_m2" in faults(beds="bed,aera_m2\nonly bed,30\n")[0].wanted
    assert any("is missing" in p.found for p in faults(beds="bed\nonly bed\n"))
    assert any("stands twice" in p.found for p in faults(beds="bed,bed,area_m2\na,b,3\n"))


def test_a_missing_file_says_what_its_rows_are() -> None:
    (problem,) = faults(beds=None)

    assert problem == Problem("beds.csv", 0, "the file is missing", "each row is a bed")


def test_the_same_name_twice_is_told_with_the_first_row() -> None:
    (problem,) = faults(beds="bed,area_m2\nonly bed,30\nOnly Bed,20\n")

    assert problem.row == 3
    assert "row 2" in problem.wanted


def test_a_quantity_in_two_units_at_once_is_refused() -> None:
    assert any("two units" in p.found for p in faults(beds="bed,area_m2,area_ft2\nonly bed,30,3\n"))


def test_us_units_give_the_same_season_as_metric_ones() -> None:
    beds = "bed,area_ft2\nonly bed,322.917312505\n"
    season = small_season(beds=beds)

    assert abs(season.beds[0].area_m2 - 30) < 1e-9


@pytest.mark.parametrize(
    "wild",
    [
        '"=HYPERLINK(""x"")"',
        "<script>alert(1)</script>",
        "![x](http://example.invalid/x.png)",
        "@SUM(A1)",
        "bed $x$",
        "x" * 81,
    ],
)
def test_a_name_that_a_page_or_a_sheet_would_act_on_is_refused(wild: str) -> None:
    found = faults(beds=f"bed,area_m2\n{wild},30\n")

    assert found[0].file == "beds.csv"
    assert "letters" in found[0].wanted


@pytest.mark.parametrize("name", ["\U0001f96b bed", "\u05d2\u05df", "Bed no. 2 (by the wall), 1/2"])
def test_names_in_any_script_are_kept(name: str) -> None:
    season = small_season(
        beds=f'bed,area_m2\n"{name}",30\n',
        plantings=TABLES["plantings.csv"].replace("only bed", f'"{name}"'),
    )

    assert season.beds[0].name == name


def test_a_canned_preserve_without_a_tested_process_cannot_enter_a_season() -> None:
    preserves = TABLES["preserves.csv"] + (
        'canned beans,beans,bush bean,boiling water,"Beans, snap (green, wax, Italian), pieces",'
        "raw,pint,0\n"
    )
    (problem,) = faults(preserves=preserves)

    assert problem.row == 6
    assert "low in acid" in problem.found
    assert "freeze" in problem.wanted


def test_a_pressure_process_needs_a_pressure_canner() -> None:
    preserves = TABLES["preserves.csv"] + (
        'canned beans,beans,bush bean,pressure,"Beans, snap (green, wax, Italian), pieces",'
        "raw,pint,0\n"
    )
    (problem,) = faults(preserves=preserves)

    assert "no pressure canner" in problem.found


def test_a_tested_recipe_is_not_lent_to_another_crop() -> None:
    preserves = TABLES["preserves.csv"].replace(
        'sauce,tomatoes,tomato,boiling water,"Tomato sauce, standard (thin or thick)",hot',
        'sauce,tomatoes,tomato,boiling water,"Beans, dilled",raw',
    )

    assert any("is not for tomato" in p.found for p in faults(preserves=preserves))


def test_a_jar_above_the_tested_size_cannot_enter_a_season() -> None:
    jars = TABLES["jars.csv"].replace("quart,946", "quart,1000")

    assert any("is larger" in p.found for p in faults(jars=jars))


def test_jars_in_fluid_ounces_take_the_process_of_their_own_size() -> None:
    jars = "jar,volume_fl_oz,owned,lids\nquart,32,40,60\npint,16,30,40\npack,25,,\n"
    tested = {p.name: p.process.jar for p in small_season(jars=jars).preserves if p.process}

    assert tested == {"whole tomatoes": "quart", "sauce": "pint", "dilled beans": "pint"}


def test_without_an_altitude_nothing_is_canned() -> None:
    household = "household,invented,notes_date\nTiny,yes,2027-03-01\n"
    problems = faults(household=household)

    assert {p.row for p in problems} == {2, 3, 5}
    assert all("without the altitude" in p.found for p in problems)


def test_more_full_jars_than_are_owned_is_a_contradiction() -> None:
    stock = TABLES["stock.csv"].replace("whole tomatoes,6", "whole tomatoes,41")

    assert any("41 full quart, of 40 owned" in p.found for p in faults(stock=stock))
    # how many are owned has no day: one that broke since was owned then
    head = "taken_on,preserve,jars,why\n"
    broke = f"{head}2027-03-02,whole tomatoes,1,lost\n"
    assert small_season(stock=stock, taken=broke)
    eaten = f"{head}2027-03-02,whole tomatoes,1,eaten\n"
    assert any("41 full" in p.found for p in faults(stock=stock, taken=eaten))


def test_three_tiers_of_jars_are_refused() -> None:
    places = TABLES["places.csv"].replace("shelf,shelf,1,2", "shelf,shelf,1,3")

    assert any("tiers" in p.found for p in faults(places=places))


def test_a_table_of_too_many_rows_is_refused() -> None:
    rows = "".join(f"2027-07-01,tomato,{n}\n" for n in range(20_001))

    assert "rows" in faults(harvest_log="picked_on,crop,picked_kg\n" + rows)[0].found


def test_the_newest_count_of_each_preserve_overrules_the_one_before() -> None:
    season = small_season(
        stock=TABLES["stock.csv"] + "2027-09-01,frozen beans,9,2027-08-20\n",
    )
    names = {standing.preserve: standing.units for standing in stock(season, date(2027, 9, 2))}

    assert names == {"whole tomatoes": 6, "frozen beans": 9}
    assert len(stock(season, date(2027, 3, 1))) == 2
    assert stock(season, date(2026, 1, 1)) == ()


WILD = (
    *("", "0", "-1", "1e9", "1e308", "nan", "0.001", "2", "x", "yes", "2027-02-29", "1900-01-01"),
    *("2200-12-31", "02-29", "12-31", "everyone", "tomato", "hot", "pressure", "freeze", "dry"),
    *("ferment", "root store", "with the season", "whole plate", "\u202e", "a;b;c", ";", "=1"),
    *("a" * 600, '"', "1_000", "\u0663", "1e-320", "0x10", "1,5", "female", "Tomato "),
)


@pytest.mark.parametrize("household", HOUSEHOLDS)
def test_wild_cells_and_rows_give_a_season_or_its_faults_and_nothing_else(household: str) -> None:
    whole = {
        file: list(csv.reader(io.StringIO(text))) for file, text in demo_tables(household).items()
    }
    chance, sound = np.random.default_rng(20270315), 0
    for _ in range(200):
        tables = {file: [[*cells] for cells in rows] for file, rows in whole.items()}
        for _ in range(chance.integers(1, 4)):
            rows = tables[str(chance.choice(list(tables)))]
            row = int(chance.integers(1, len(rows)))
            if chance.random() < 0.25:
                rows[row] = rows[int(chance.integers(1, len(rows)))]
            else:
                rows[row][chance.integers(len(rows[row]))] = str(chance.choice(WILD))
        texts = {}
        for file, rows in tables.items():
            text = io.StringIO()
            csv.writer(text).writerows(rows)
            texts[file] = text.getvalue()
        try:
            season_from_zip(zipped(texts), "own.zip")
        except SeasonProblems:
            continue
        sound += 1

    assert 10 < sound < 130


def test_only_what_was_eaten_can_be_left_unfinished() -> None:
    taken = "taken_on,preserve,jars,why,unfinished\n2027-03-02,whole tomatoes,1,{},yes\n"
    season = small_season(taken=taken.format("eaten"))

    assert season.record.taken[0].unfinished
    (problem,) = faults(taken=taken.format("given"))
    assert problem.found == "not finished, but it was given"
