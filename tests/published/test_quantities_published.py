"""Weights, portions, hours and losses against published figures."""

import csv
import math
from datetime import date
from pathlib import Path

import pytest

from model.case import make_case
from model.demand.hand_rule import HandRule
from model.reference.lookup import crop, fresh_per_jar, hand_minutes_per_kg, store_loss_per_week
from model.reference.read import table
from model.season.season import Season
from tests.small_season import TABLES, small_season

LB_KG, QUART_L, PINT_L = 0.45359237, 0.946353, 0.473176

# Pounds as picked a quart, and jars a bushel (or other unit) with its weight in pounds.
# Sources: USDA AIB 539 Guides 2-4; Michigan State University Extension records 01600830,
# 01600353, 01600772, 01600280, 01600242, 01600053; Florida EDIS HE175, HE245; NCHFP.
PER_QUART = [
    ("Tomatoes, whole or halved, in water", "tomato", "", 3.0, 53, (15, 21)),
    ("Tomato juice", "tomato", "", 3.25, 53, (15, 18)),
    ("Tomato sauce, standard (thin or thick)", "tomato", "thin", 5.0, 53, (10, 12)),
    ("Tomato sauce, standard (thin or thick)", "tomato", "thick", 6.5, 53, (7, 9)),
    ("Apples, sliced", "apple", "", 2.75, 48, (16, 19)),
    ("Applesauce", "apple", "", 3.0, 48, (14, 19)),
    ("Peaches, halved or sliced", "peach", "", 2.5, 48, (16, 24)),
    ("Plums, halved or whole", "plum", "", 2.0, 56, (22, 36)),
    ("Beans, snap (green, wax, Italian), pieces", "bush bean", "", 2.0, 30, (12, 20)),
    ("Corn, whole kernel", "sweet corn", "", 4.5, 35, (6, 11)),
    ("Peas, green, shelled", "pea", "", 4.5, 30, (5, 10)),
    ("Spinach and other greens", "spinach", "", 4.0, 18, (3, 9)),
]

# Pounds of the main crop in a tested batch and the pints it makes. Sources: MSU 01600865 and
# 01600078, USDA AIB 539 Guides 2, 3 and 6.
PER_BATCH = [
    ("Dill pickles, quick fresh-pack", "pickling cucumber", 8, (7, 9), PINT_L),
    ("Beets, pickled", "beetroot", 7, (8, 8), PINT_L),
    ("Tomato ketchup", "tomato", 24, (6, 7), PINT_L),
    ("Apple butter", "apple", 8, (8, 9), PINT_L),
]


@pytest.mark.parametrize(("product", "crop", "style", "pounds", "bushel", "quarts"), PER_QUART)
def test_fresh_weight_in_a_quart_is_the_published_one(
    product: str, crop: str, style: str, pounds: float, bushel: float, quarts: tuple[int, int]
) -> None:
    (weight,) = fresh_per_jar(product, crop, style)
    per_quart = weight.kg_per_l * QUART_L / LB_KG

    assert per_quart == pytest.approx(pounds, rel=0.002)
    assert bushel / quarts[1] - 0.26 <= per_quart <= bushel / quarts[0] + 0.01


@pytest.mark.parametrize(("product", "crop", "pounds", "jars", "litres"), PER_BATCH)
def test_a_tested_batch_makes_the_published_jars(
    product: str, crop: str, pounds: float, jars: tuple[int, int], litres: float
) -> None:
    (weight,) = fresh_per_jar(product, crop)
    made = pounds * LB_KG / (weight.kg_per_l * litres)

    assert jars[0] * 0.98 <= made <= jars[1] * 1.02


def test_crushed_tomatoes_take_the_larger_of_two_published_weights() -> None:
    """MSU 01600830 prints 22 lb for 7 quarts, which is 3.14 lb a quart, and 2.75 lb a quart."""
    (weight,) = fresh_per_jar("Tomatoes, crushed, no added liquid", "tomato")

    assert weight.kg_per_l * 7 * QUART_L / LB_KG == pytest.approx(22, rel=0.001)


# No yield of a single plant is published; trees are planned by the tree, never by the m2.
NO_PLANT = {"runner bean", "raspberry"}
TREES = {"apple", "pear", "plum", "damson", "sweet cherry", "peach"}


def test_the_same_plants_give_the_same_by_plant_and_by_square_metre() -> None:
    """Home-garden yields by plant and by m2 of bed (sources in yields.csv), for every crop."""
    for row in table("crops"):
        known = crop(row["crop"])
        kg = {published.per: published.kg_typical for published in known.yields}
        if known.name in NO_PLANT | TREES:
            assert known.name in TREES or "plant" not in kg
            assert known.name in NO_PLANT or "m2 of bed" not in kg
            continue
        assert known.plants_per_m2 is not None
        by_plant = kg["plant"] * known.plants_per_m2
        assert by_plant == pytest.approx(kg["m2 of bed"], rel=0.05), known.name


@pytest.mark.parametrize(
    ("name", "fewest", "most"),
    [
        # University of Georgia and Virginia planting charts print 21.5, 25.8, 34.4, 28.7 and
        # 14.4 for wide single rows; intensive-bed lists print 172, 172, 248, 172 and 62.
        ("onion", 21.5, 172),
        ("garlic", 25.8, 172),
        ("carrot", 34.4, 248),
        ("parsnip", 28.7, 172),
        # Rothamsted 1926: 1,534 roots of the measured weight on 0.098 acre, which is 3.9 a m2
        ("swede", 3.9, 14.4),
        # Nagai 1978: 6 plants a plot of 0.54 m2, which is 11.1 a m2
        ("strawberry", 11.0, 11.2),
    ],
)
def test_plants_stand_between_wide_rows_and_the_closest_beds(
    name: str, fewest: float, most: float
) -> None:
    spacing = crop(name).plants_per_m2

    assert spacing is not None
    assert fewest <= spacing <= most


@pytest.mark.parametrize(
    ("name", "fewest", "most"),
    [
        # North Dakota State University Extension FN189: within 24 hours of harvest
        ("pickling cucumber", 1, 1),
        # DPIRD Western Australia, storage tables: 1-2 weeks
        ("broccoli", 7, 14),
        # USDA Agriculture Handbook 66 (1954): 1-2 weeks
        ("spinach", 7, 14),
        # University of Vermont and University of Delaware Extension: 2-3 months at 13 C
        ("pumpkin", 60, 90),
    ],
)
def test_a_picking_is_held_no_longer_than_was_published(
    name: str, fewest: float, most: float
) -> None:
    assert fewest <= crop(name).hold_days <= most


def test_a_pressure_load_holds_the_canner_until_it_has_cooled() -> None:
    """MSU 01600948: heat 12-15, vent 10, come up 5, then 20-60 minutes to no pressure.

    A whole cycle for an acid food of 10 minutes or so is printed there as 70-115 minutes.
    """
    season = small_season(
        equipment=TABLES["equipment.csv"] + 'canner,"pressure canner, dial gauge",quart,7\n',
        preserves=TABLES["preserves.csv"]
        + 'pressed,tomatoes,tomato,pressure,"Tomatoes, whole or halved, in water",hot,quart,0\n',
    )
    pressed = season.preserve("pressed")
    assert pressed.process is not None
    around = pressed.minutes_per_load - pressed.process.minutes
    filling = season.settings.fill_minutes_per_load

    assert 12 + 10 + 5 + 20 <= around - filling <= 15 + 10 + 5 + 60
    assert 70 <= pressed.minutes_per_load - filling <= 115


def _budget() -> list[dict[str, str]]:
    path = Path(__file__).with_name("canning_budget.csv")
    with path.open(encoding="utf-8", newline="") as stream:
        return [
            row
            for row in csv.DictReader(stream)
            if row["servings_per_week_per_person"]
            and row["serving_us_cups"]
            and row["weeks_out_of_season"]
            and row["agreement"] != '"occasionally" in the original'
        ]


@pytest.mark.parametrize("row", _budget(), ids=lambda row: row["food"])
def test_the_hand_rule_gives_the_published_canning_budget(row: dict[str, str]) -> None:
    """Older home-canning budgets; the addresses stand in the rows of the CSV file."""
    cups = {"quart": 4.0, "pint": 2.0, "half_pint": 1.0}[row["container"]]
    persons, servings = float(row["persons"]), float(row["servings_per_week_per_person"])
    weeks = float(row["weeks_out_of_season"])
    rule = HandRule(
        preserve=row["food"],
        unit=row["container"],
        uses_a_week=persons * servings * weeks / round(weeks),
        weeks_without_fresh=round(weeks),
        portions_a_unit=cups / float(row["serving_us_cups"]),
        carry_over=-round(float(row["extra_added_containers"])),
        loss_share=0.0,
        begins=date(1945, 7, 1),
    )

    # the table rounds to the nearest half or whole jar, the rule rounds up
    exact = float(row["containers_needed_computed"])
    assert exact - 0.01 <= rule.sealed_needed <= math.ceil(exact + 0.01)
    assert abs(rule.sealed_needed - float(row["containers_published"])) <= 1.0


def test_a_household_of_four_needs_51_quarts_of_tomatoes_and_14_for_cooking() -> None:
    """The worked example of a wartime manual: 3 meals x 4 people x 1/2 cup x 34 weeks."""
    rule = HandRule("tomato", "quart", 12.0, 34, 8.0, 0, 0.0, date(1945, 7, 1))

    assert rule.sealed_needed == 51
    assert rule.sealed_needed + 14 == 65


def test_jars_to_fill_allow_for_those_that_do_not_seal() -> None:
    rule = HandRule("tomato", "quart", 12.0, 34, 8.0, 0, 0.025, date(2027, 7, 1))

    assert rule.to_fill == 53


def test_a_quart_of_peaches_takes_the_minutes_that_were_recorded() -> None:
    """24 minutes of work a quart, one 4-H record as told in extension notes (memory)."""
    season = small_season(
        foods=TABLES["foods.csv"] + "fruit,fruit,2,6,4,peach\n",
        preserves=TABLES["preserves.csv"]
        + 'peaches,fruit,peach,boiling water,"Peaches, halved or sliced",hot,quart,100\n',
        household="household,invented,altitude_m,notes_date\nTiny,yes,100,2027-03-01\n",
    )
    peaches = season.preserve("peaches")
    load = peaches.minutes_per_load / (peaches.units_per_load or 1)

    assert peaches.minutes_per_unit + load == pytest.approx(24, rel=0.1)


def test_winter_squash_shrinks_as_published() -> None:
    """Penn State Extension: 1-1.5 % a week, so 100 kg are 90.4 to 86.0 kg after ten weeks."""
    loss = store_loss_per_week("winter squash")

    assert loss is not None
    assert 86.0 <= 100 * (1 - loss) ** 10 <= 90.4


def test_a_15_cubic_foot_freezer_takes_30_pounds_a_day() -> None:
    """USDA AIB 410: 2-3 lb a cubic foot a day; the low end is what the plan counts on."""
    places = "place,kind,shelf_area_m2,tiers,volume_cu_ft\nshelf,shelf,1,2,\nfreezer,freezer,,,15\n"
    season = small_season(places=places)
    a_day_kg = _freezer_kg_a_week(season) / 7

    assert a_day_kg == pytest.approx(30 * LB_KG, rel=0.01)


def _freezer_kg_a_week(season: Season) -> float:
    case = make_case(season, date(2027, 3, 1))
    return float(case.arrays.freezer_kg_a_week[case.arrays.places.index("freezer"), 0])


def test_preparing_beans_takes_the_minutes_that_practice_knows() -> None:
    """0.15-0.3 h a kilogram to top, tail and cut: common practice, no source."""
    minutes = hand_minutes_per_kg("prepare", "bush bean")

    assert minutes is not None
    assert 0.15 * 60 <= minutes <= 0.3 * 60
