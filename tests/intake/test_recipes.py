"""Further ingredients: every row counts or is a fault; no preserve drops out in silence."""

import pytest

from tests.intake.faulty import HOUSEHOLDS, demo_tables, faults, season_from_zip, zipped
from tests.small_season import TABLES, small_season

HEADINGS = "preserve,crop,fresh_per_jar_kg\n"


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("frozen beans,tomato,0", "fresh_per_jar_kg is '0'"),
        ("frozen peas,tomato,0.1", "preserve 'frozen peas' is not in preserves.csv"),
        ("frozen beans,tomatto,0.1", "crop 'tomatto' is not in"),
        ("frozen beans,Dwarf French bean,0.1", "bush bean is the main crop of frozen beans"),
        ("frozen beans,carrot,0.1\nFrozen beans,Carrot,0.2", "again"),
        (
            "frozen beans,pea,0.1\nfrozen beans,garden pea,0.2",
            "pea goes into frozen beans twice",
        ),
    ],
)
def test_a_faulty_ingredient_is_told(row: str, found: str) -> None:
    told = faults(ingredients=f"{HEADINGS}{row}\n")

    assert [p.file for p in told] == ["ingredients.csv"]
    assert found in told[0].found
    assert told[0].wanted


def test_an_ingredient_goes_into_its_preserve_whatever_its_capitals() -> None:
    season = small_season(ingredients=f"{HEADINGS}Frozen Beans,Tomato,0.1\n")

    assert season.preserve("frozen beans").crops == ("bush bean", "tomato")


def test_a_weight_of_nothing_in_a_jar_is_a_fault_and_not_the_usual_weight() -> None:
    first, *rows = TABLES["preserves.csv"].splitlines()
    weighed = [f"{first},fresh_per_jar_kg", *(f"{row},0" for row in rows)]
    told = faults(preserves="\n".join(weighed))

    assert [p.found for p in told if p.file == "preserves.csv"] == ["fresh_per_jar_kg is '0'"] * 4


@pytest.mark.parametrize("volume", ["0", "1e-320", "0.0000001", "5"])
def test_a_jar_too_small_to_be_one_is_told(volume: str) -> None:
    told = faults(jars=TABLES["jars.csv"].replace("pint,473", f"pint,{volume}"))

    assert [(p.file, p.row) for p in told] == [("jars.csv", 3)]


@pytest.mark.parametrize("household", HOUSEHOLDS)
def test_every_preserve_and_planting_that_is_written_down_is_in_the_season(household: str) -> None:
    tables = demo_tables(household)
    season = season_from_zip(zipped(tables), "own.zip")

    assert len(season.preserves) == len(tables["preserves.csv"].splitlines()) - 1
    assert len(season.plantings) == len(tables["plantings.csv"].splitlines()) - 1
    assert len(season.counts) == len(tables["stock.csv"].splitlines()) - 1
