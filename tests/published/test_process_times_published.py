"""Tested processes against figures that were published apart from the shipped table."""

import pytest

from model.errors import NoTestedProcess
from model.reference.lookup import keeping
from model.safety.altitude import altitude_ft
from model.safety.methods import cautions_for
from model.safety.process_times import process_time

BOILING, DIAL, WEIGHTED = "boiling water", "pressure, dial gauge", "pressure, weighted gauge"
PEACHES = "Peaches, halved or sliced"
SNAP_BEANS = "Beans, snap (green, wax, Italian), pieces"

# product, method, pack, jar, altitude, minutes, psi; the source stands beside each.
LOOK_UPS = [
    # USDA AIB 539 Guide 1, sample table for peaches
    (PEACHES, BOILING, "hot", "quart", "2500 ft", 30, None),
    (PEACHES, BOILING, "raw", "pint", "6500 ft", 40, None),
    (PEACHES, DIAL, "hot", "pint", "5500 ft", 10, 8),
    (PEACHES, WEIGHTED, "raw", "quart", "5500 ft", 10, 10),
    # USDA AIB 539 Guide 4
    (SNAP_BEANS, DIAL, "raw", "quart", "4500 ft", 25, 13),
    # Michigan State University Extension, record 01600875
    ("Tomatoes, whole or halved, raw, no added liquid", BOILING, "raw", "pint", "1200 m", 95, None),
    # University of Minnesota Extension, printed without a table: the state is above 1,000 ft
    ("Pears, halved or sliced", BOILING, "hot", "pint", "1200 ft", 25, None),
    ("Pears, halved or sliced", BOILING, "hot", "quart", "1200 ft", 30, None),
    ("Corn relish", BOILING, "hot", "half-pint", "1200 ft", 20, None),
    ("Corn relish", BOILING, "hot", "pint", "1200 ft", 20, None),
    # Michigan State University and Florida Extension: the tomato bands of the trade
    ("Tomatoes, whole or halved, in water", BOILING, "hot", "quart", "500 ft", 45, None),
    ("Tomatoes, whole or halved, in water", BOILING, "hot", "quart", "2500 ft", 50, None),
    ("Tomatoes, whole or halved, in water", BOILING, "hot", "quart", "5000 ft", 55, None),
    ("Tomatoes, whole or halved, in water", BOILING, "hot", "quart", "7000 ft", 60, None),
    # A kitchen at 1,012 ft takes the stricter side of the sharp edge (NCHFP rule)
    ("Applesauce", BOILING, "hot", "quart", "1012 ft", 25, None),
]

# Utah State University Extension, Timetables for Canning (2010): pint and quart minutes at
# 3,001-6,000 ft, then at 6,001-8,000 ft. Independent of the shipped table's other sources.
UTAH = [
    ("Apples, sliced", "hot", (30, 30), (35, 35)),
    ("Applesauce", "hot", (20, 30), (25, 35)),
    (PEACHES, "raw", (35, 40), (40, 45)),
    (PEACHES, "hot", (30, 35), (35, 40)),
    ("Berries, whole", "raw", (20, 30), (25, 35)),
    ("Cherries, whole", "raw", (35, 35), (40, 40)),
    ("Cherries, whole", "hot", (20, 30), (25, 35)),
    ("Fruit puree (apple, apricot, berry, peach, pear, plum)", "hot", (20, 20), (25, 25)),
    ("Plums, halved or whole", "raw", (30, 35), (35, 40)),
]


@pytest.mark.parametrize(
    ("product", "method", "pack", "jar", "altitude", "minutes", "psi"), LOOK_UPS
)
def test_a_look_up_gives_the_published_figure(
    product: str, method: str, pack: str, jar: str, altitude: str, minutes: int, psi: int | None
) -> None:
    found = process_time(product, method, pack, jar, altitude_ft(altitude))

    assert (found.minutes, found.pressure_psi) == (minutes, psi)


@pytest.mark.parametrize(("product", "pack", "lower", "upper"), UTAH)
def test_look_ups_agree_with_the_utah_timetable(
    product: str, pack: str, lower: tuple[int, int], upper: tuple[int, int]
) -> None:
    for altitude, expected in (("4500 ft", lower), ("7000 ft", upper)):
        for jar, minutes in zip(("pint", "quart"), expected, strict=True):
            found = process_time(product, BOILING, pack, jar, altitude_ft(altitude))
            assert found.minutes == minutes, (product, jar, altitude)


def test_what_practitioners_do_with_beans_in_vinegar_is_never_below_the_tested_time() -> None:
    """Ten minutes at the boil near sea level, pints: common practice, no source.

    The practice is equal parts of water and vinegar, about 6-10 mm of headspace and jars
    covered by 25-30 mm of water. The tested time is shorter at sea level and the same in
    the band above, so the practice is on the safe side of the table where it is told.
    """
    sea_level = process_time("Beans, dilled", BOILING, "raw", "pint", altitude_ft("100 m"))
    uphill = process_time("Beans, dilled", BOILING, "raw", "pint", altitude_ft("640 m"))

    assert sea_level.minutes <= 10
    assert sea_level.sterilise_empty_jars
    assert uphill.minutes == 10
    assert uphill.headspace_mm is not None
    assert uphill.headspace_mm >= 6


def test_empty_jars_are_sterilised_for_ten_minutes() -> None:
    """A ten-minute simmer of empty jars: common practice, no source; here it is a boil."""
    (caution,) = [c for c in cautions_for({"sterilise"}) if "sterilised" in c]

    assert "ten minutes" in caution


def test_the_lid_is_pressed_the_next_day() -> None:
    """Jars left 24 hours before the lid is pressed: common practice, no source."""
    assert any("the lid is pressed the next day" in c for c in cautions_for({"canning"}))


def test_an_unsealed_jar_goes_into_the_refrigerator_within_a_day() -> None:
    """Refrigerated and eaten within two weeks: common practice, no source.

    What is shown is the stricter published rule: within 24 hours, or thrown away.
    """
    (caution,) = [c for c in cautions_for({"canning"}) if "did not seal" in c]

    assert "24 hours" in caution
    assert "refrigerator" in caution


def test_a_sealed_jar_keeps_at_least_a_year() -> None:
    """At least a year: common practice, no source; USDA AIB 410 prints the same."""
    life = keeping("can", "any")

    assert life is not None
    assert life.weeks_low >= 52


def test_a_practised_short_cut_is_refused() -> None:
    with pytest.raises(NoTestedProcess, match="not a tested way"):
        process_time("Applesauce", "hot fill without processing", "hot", "pint", altitude_ft("0 m"))
