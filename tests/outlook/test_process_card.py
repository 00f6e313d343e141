"""What a process card tells beside the time. Sources stand beside each check."""

from fractions import Fraction

import pytest

from model.outlook.process_card import ProcessCard, process_card
from model.reference.read import table
from model.season.season import Season
from tests.small_season import TABLES, small_season

TOMATOES = "Tomatoes, whole or halved, in water"


def lines(product: str, method: str, pack: str, jar: str) -> list[str]:
    return process_card(product, method, pack, jar, Fraction(500)).text().splitlines()


@pytest.mark.parametrize(
    ("jar", "lemon", "citric"),
    [
        # Michigan State University Extension 01600830: 1 tbsp or 1/4 tsp a pint, twice a quart
        ("pint", "1 tbsp (15 ml)", "1/4 level tsp"),
        ("quart", "2 tbsp (30 ml)", "1/2 level tsp"),
        ("500 ml", "2 tbsp (30 ml)", "1/2 level tsp"),
    ],
)
@pytest.mark.parametrize("method", ["boiling water", "pressure dial"])
def test_the_acid_of_tomatoes_stands_right_after_the_time(
    jar: str, lemon: str, citric: str, method: str
) -> None:
    _, minutes, acid, *_ = lines(TOMATOES, method, "hot", jar)

    assert "minute" in minutes
    assert acid.startswith("Acid goes into every jar")
    assert f"{lemon} bottled lemon juice" in acid
    assert f"{citric} " in acid


def test_acid_for_seven_quarts_is_what_was_worked_out() -> None:
    """Worked example D1 after MSU 01600830: 14 tbsp, or 3.5 tsp, for 7 quarts; 9 for 9 pints."""
    tomato = {row["jar"]: row for row in table("acid_amounts") if row["food"] == "tomato"}

    assert 7 * int(tomato["quart"]["lemon_juice_tbsp"]) == 14
    assert 7 * Fraction(tomato["quart"]["citric_acid_tsp"]) == Fraction("3.5")
    assert 9 * int(tomato["pint"]["lemon_juice_tbsp"]) == 9
    assert 9 * Fraction(tomato["pint"]["citric_acid_tsp"]) == Fraction("2.25")


def test_every_process_with_acid_in_every_jar_has_its_amount() -> None:
    for row in table("process_times"):
        if row["acid_in_every_jar"] == "yes":
            altitude = Fraction(int(row["from_ft"]))
            card = process_card(row["product"], row["method"], row["pack"], row["jar"], altitude)
            assert "lemon juice" in card.steps[0], row
            assert card.values()["acid_in_a_jar"]


def test_every_line_that_may_be_used_is_printed() -> None:
    """NCHFP, whole tomatoes in water, weighted gauge: 15 at 5, 10 at 10 or 1 at 15 psi."""
    text = lines(TOMATOES, "pressure weighted", "hot", "pint")

    assert text[1].startswith("15 minutes at 5 psi")
    assert "Tested as well: 10 minutes at 10 psi; 1 minute at 15 psi." in text


def test_headspace_and_sterilised_jars_are_told_where_they_belong() -> None:
    """USDA AIB 539 guide 6: dilled beans with half an inch, 5 minutes near sea level."""
    beans = lines("Beans, dilled", "boiling water", "raw", "pint")

    assert "Headspace 13 mm (0.5 in)." in beans
    assert "Sterilise the empty jars first." in beans
    assert not any("Acid goes" in line for line in beans)
    jam = lines("Jam or jelly with added pectin", "boiling water", "hot", "half-pint")
    assert "Headspace 6 mm (0.25 in)." in jam


def card_of(season: Season, preserve: str) -> ProcessCard | None:
    return ProcessCard.of_preserve(season.preserve(preserve), season.altitude_ft)


def test_the_card_of_a_planned_preserve_tells_acid_jars_and_heat() -> None:
    season = small_season(
        household="household,invented,altitude_m,notes_date\nTiny,yes,100,2027-03-01\n"
    )
    tomatoes, beans = card_of(season, "whole tomatoes"), card_of(season, "dilled beans")

    assert tomatoes is not None
    assert beans is not None
    assert "in boiling water" in tomatoes.figure
    assert tomatoes.steps[0].startswith("Acid goes into every jar: ")
    assert not any("Sterilise" in step for step in tomatoes.steps)
    assert any("Sterilise the empty jars" in step for step in beans.steps)
    assert card_of(season, "frozen beans") is None


@pytest.mark.parametrize("gauge", ["dial gauge", "weighted gauge"])
def test_the_card_of_a_planned_preserve_names_the_gauge(gauge: str) -> None:
    season = small_season(
        equipment=TABLES["equipment.csv"] + f'canner,"pressure canner, {gauge}",pint,9\n',
        preserves=TABLES["preserves.csv"]
        + 'canned beans,beans,bush bean,pressure,"Beans, snap (green, wax, Italian), pieces",'
        "raw,pint,0\n",
    )
    card = card_of(season, "canned beans")

    assert card is not None
    assert card.figure.endswith(f"{card.process.pressure_psi} psi, {gauge}")
