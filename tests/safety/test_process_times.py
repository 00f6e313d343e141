from fractions import Fraction

import pytest

from model.errors import NoAltitude, NoTestedProcess
from model.reference.lookup import products
from model.reference.read import table
from model.safety.altitude import altitude_ft
from model.safety.jar_sizes import tested_sizes
from model.safety.process_times import METHODS, process_lines, process_time

PEACHES, BEANS = "Peaches, halved or sliced", "Beans, snap (green, wax, Italian), pieces"


def minutes(product: str, pack: str, jar: str, altitude: str) -> int:
    return process_time(product, "boiling water", pack, jar, altitude_ft(altitude)).minutes


def test_without_an_altitude_there_is_no_figure() -> None:
    with pytest.raises(NoAltitude, match="without the altitude"):
        process_time(PEACHES, "boiling water", "hot", "quart", None)


def test_what_is_refused_at_every_altitude_is_refused_without_one() -> None:
    with pytest.raises(NoTestedProcess, match="low in acid"):
        process_time(BEANS, "boiling water", "raw", "pint", None)
    with pytest.raises(NoTestedProcess, match="is larger"):
        process_time(PEACHES, "boiling water", "hot", "2 l", None)


def test_band_edges_are_sharp_and_round_up() -> None:
    assert minutes(PEACHES, "hot", "quart", "1000 ft") == 25
    assert minutes(PEACHES, "hot", "quart", "1000.5 ft") == 30
    assert minutes(PEACHES, "hot", "quart", "304.8 m") == 25
    assert minutes(PEACHES, "hot", "quart", "304.81 m") == 30


def test_below_the_sea_the_lowest_band_holds() -> None:
    assert minutes(PEACHES, "hot", "quart", "-4 m") == 25


@pytest.mark.parametrize("altitude", [Fraction(-1701), Fraction(20001), Fraction(10**9)])
def test_where_no_one_cooks_there_is_no_figure(altitude: Fraction) -> None:
    with pytest.raises(NoTestedProcess, match="not the altitude of a kitchen"):
        process_lines(PEACHES, "boiling water", "hot", "quart", altitude)


@pytest.mark.parametrize("altitude", ["0 m", "640 m", "2500 m"])
def test_low_acid_food_is_refused_without_a_pressure_canner(altitude: str) -> None:
    with pytest.raises(NoTestedProcess, match="low in acid") as refusal:
        process_time(BEANS, "boiling water", "raw", "pint", altitude_ft(altitude))

    assert "freeze" in refusal.value.ways
    assert any("Beans, dilled" in way for way in refusal.value.ways)


def test_a_mixture_that_is_low_in_acid_is_refused_too() -> None:
    with pytest.raises(NoTestedProcess, match="low in acid"):
        process_time("Spaghetti sauce without meat", "boiling water", "hot", "pint", Fraction(0))


def test_a_jar_larger_than_tested_is_refused() -> None:
    with pytest.raises(NoTestedProcess, match="is larger"):
        process_time("Beans, dilled", "boiling water", "raw", "500 ml", Fraction(0))


def test_a_dial_gauge_ends_where_its_table_ends() -> None:
    assert process_time(BEANS, METHODS[1], "raw", "quart", Fraction(8000)).pressure_psi == 14
    with pytest.raises(NoTestedProcess, match="no tested process"):
        process_time(BEANS, METHODS[1], "raw", "quart", Fraction(8001))


@pytest.mark.parametrize(
    ("product", "method", "pack", "jar", "highest"),
    [
        # Utah State University Extension prints longer times at 8,001-10,000 ft (worked example
        # B9), USDA an open band above 6,000 ft: where they differ nothing is given.
        (PEACHES, METHODS[0], "hot", "quart", 8000),
        ("Applesauce", METHODS[0], "hot", "pint", 8000),
        (BEANS, METHODS[2], "raw", "quart", 10000),
    ],
)
def test_nothing_is_given_above_where_the_tables_agree(
    product: str, method: str, pack: str, jar: str, highest: int
) -> None:
    assert process_time(product, method, pack, jar, Fraction(highest)).to_ft == highest
    with pytest.raises(NoTestedProcess, match="extension service") as refusal:
        process_time(product, method, pack, jar, highest + Fraction(1, 1000))

    assert "freeze" in refusal.value.ways


@pytest.mark.parametrize("feet", [2_000, 9_000, 11_000])
def test_another_recipe_is_named_only_where_it_has_a_process_at_that_height(feet: int) -> None:
    reach = {row["product"]: int(row["to_ft"]) for row in table("process_times")}
    for row in table("process_times"):
        reach[row["product"]] = max(reach[row["product"]], int(row["to_ft"]))
    offered = set()
    for row in table("process_times"):
        try:
            process_time(row["product"], row["method"], row["pack"], row["jar"], Fraction(feet))
        except NoTestedProcess as refused:
            offered |= {w.partition("recipe: ")[2] for w in refused.ways if "recipe: " in w}

    assert all(reach[name] >= feet for name in offered)


def test_a_high_kitchen_is_told_of_the_weighted_gauge() -> None:
    with pytest.raises(NoTestedProcess) as refusal:
        process_time(PEACHES, METHODS[0], "hot", "quart", Fraction(9000))

    assert METHODS[2] in refusal.value.ways
    assert METHODS[1] not in refusal.value.ways


def test_a_band_that_was_never_read_in_a_source_is_refused() -> None:
    with pytest.raises(NoTestedProcess, match="no tested process"):
        process_time("Apricots, halved or sliced", METHODS[0], "raw", "pint", Fraction(2000))


def test_an_untested_pack_is_refused() -> None:
    with pytest.raises(NoTestedProcess, match="raw pack"):
        process_time("Pears, halved or sliced", METHODS[0], "raw", "pint", Fraction(0))


def test_ways_no_one_tests_are_refused() -> None:
    for way in ("oven", "open kettle", "microwave", "inversion", "dishwasher", "steam"):
        with pytest.raises(NoTestedProcess, match="not a tested way"):
            process_time(PEACHES, way, "hot", "pint", Fraction(0))


def test_every_pressure_line_that_may_be_used_is_given_first_line_first() -> None:
    lines = process_lines(
        "Tomatoes, whole or halved, in water", METHODS[2], "hot", "pint", Fraction(500)
    )

    assert [(line.minutes, line.pressure_psi) for line in lines] == [(15, 5), (10, 10), (1, 15)]


def test_tomatoes_take_acid_in_every_jar_by_every_method() -> None:
    for row in table("process_times"):
        if row["product"].startswith("Tomatoes, ") and "zucchini" not in row["product"]:
            assert row["acid_in_every_jar"] == "yes"


def test_no_plain_vegetable_has_a_boiling_water_process() -> None:
    for row in table("process_times"):
        if row["group"] == "vegetable":
            assert row["method"].startswith("pressure")


def test_minutes_never_fall_with_altitude_and_pressure_never_falls() -> None:
    groups: dict[tuple[str, ...], list[tuple[int, int, int]]] = {}
    for row in table("process_times"):
        key = (row["product"], row["method"], row["pack"], row["jar"], row["line"])
        figures = (int(row["from_ft"]), int(row["process_minutes"]), int(row["pressure_psi"] or 0))
        groups.setdefault(key, []).append(figures)
    for bands in groups.values():
        bands.sort()
        assert [m for _, m, _ in bands] == sorted(m for _, m, _ in bands)
        assert [p for _, _, p in bands] == sorted(p for _, _, p in bands)


def test_minutes_never_fall_with_the_size_of_the_jar() -> None:
    by_jar: dict[tuple[str, ...], dict[str, int]] = {}
    for row in table("process_times"):
        key = tuple(row[name] for name in ("product", "method", "pack", "from_ft", "line"))
        by_jar.setdefault(key, {})[row["jar"]] = int(row["process_minutes"])
    sizes = tested_sizes()
    for minutes_by_jar in by_jar.values():
        ordered = [minutes_by_jar[jar] for jar in sorted(minutes_by_jar, key=sizes.__getitem__)]
        assert ordered == sorted(ordered)


def test_nothing_remembered_or_of_low_confidence_is_shipped_as_a_process() -> None:
    assert {row["confidence"] for row in table("process_times")} <= {"high", "medium"}


def test_every_product_can_be_looked_up_in_every_way_it_is_tested() -> None:
    for row in table("process_times"):
        altitude = Fraction(int(row["from_ft"]))
        line = process_lines(row["product"], row["method"], row["pack"], row["jar"], altitude)

        assert int(row["process_minutes"]) in {found.minutes for found in line}
    assert {row["product"] for row in table("process_times")} == set(products())
