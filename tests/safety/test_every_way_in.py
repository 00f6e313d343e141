"""Random questions through every way in: never less than printed, never without a way out.

What is printed is read by ``tests.tested_table``, which shares no code with the look-up.
``QUESTIONS=100000`` asks as many; the suite asks fewer.
"""

import os
from fractions import Fraction

import numpy as np
import pytest
from streamlit.testing.v1 import AppTest

import model
from model.errors import NoTestedProcess, SeasonProblems
from model.outlook.day_product import Wanted, day_products
from model.outlook.process_card import process_card
from model.safety.process_times import METHODS, PACKS, process_lines
from model.season.season import Season
from tests.conftest import GLUT
from tests.dashboard.steps import words
from tests.dashboard.test_process_form import asked as asked_on_the_form
from tests.piles import split_glut
from tests.small_season import TABLES, small_season
from tests.tested_table import ACIDITY, CROPS, VOLUME_ML, Asked, never_below, printed

QUESTIONS = int(os.environ.get("QUESTIONS", "10000"))
PRODUCTS = sorted(ACIDITY)
UNTESTED = (
    *("Green beans in olive oil", "Pumpkin butter", "Our own tomato sauce", "Cream of celery soup"),
    *("Garlic in oil", "White peaches", "Bread in a jar", "Cabbage", "", "%s", "'; drop table"),
)
NO_WAYS = ("oven", "open kettle", "microwave", "dishwasher", "steam", "", "pressure")
JARS = {**VOLUME_ML, **{f"{ml} ml": Fraction(ml) for ml in (370, 500, 900, 1000, 2000)}}
KINDS = {
    "boiling water": "boiling-water canner",
    "pressure, dial gauge": "pressure canner, dial gauge",
    "pressure, weighted gauge": "pressure canner, weighted gauge",
}


@pytest.fixture
def generator() -> np.random.Generator:
    return np.random.default_rng(61)


def altitude(generator: np.random.Generator) -> Fraction | None:
    if generator.random() < 0.1:
        return None
    edges = (0, 1000, 1001, 2000, 3000, 4000, 6000, 8000, 8001, 10000)
    if generator.random() < 0.3:
        return Fraction(int(generator.choice(edges))) + Fraction(int(generator.integers(-9, 10)), 9)
    return Fraction(int(generator.integers(-1_800_000, 21_000_000)), 1000)


def question(generator: np.random.Generator) -> Asked:
    product = str(generator.choice(PRODUCTS if generator.random() < 0.85 else UNTESTED))
    method = str(generator.choice(METHODS if generator.random() < 0.9 else NO_WAYS))
    pack = str(generator.choice((*PACKS, "")))
    size = str(generator.choice(list(VOLUME_ML)))
    volume = VOLUME_ML[size] * Fraction(int(generator.integers(1, 25)), 12)
    return Asked(product, method, pack, volume, altitude(generator))


def in_words(volume_ml: Fraction) -> str:
    """Write a jar as a person does: never larger than it is by more than the last figure."""
    return f"{float(volume_ml):.6f} ml"


def test_a_look_up_never_gives_less_than_is_printed(generator: np.random.Generator) -> None:
    given, refused = 0, list[NoTestedProcess]()
    for _ in range(QUESTIONS):
        one = question(generator)
        jar_words = in_words(one.jar_ml)
        one = Asked(one.product, one.method, one.pack, Fraction(jar_words[:-3]), one.altitude_ft)
        try:
            lines = process_lines(one.product, one.method, one.pack, jar_words, one.altitude_ft)
        except NoTestedProcess as refusal:
            refused.append(refusal)
            continue
        for line in lines:
            never_below(one, line)
        assert {(line.minutes, line.pressure_psi) for line in lines} <= printed(one)
        given += 1
    assert all(refusal.ways and refusal.reason for refusal in refused)
    assert min(given, len(refused)) > QUESTIONS / 20


def test_what_is_printed_is_also_given(generator: np.random.Generator) -> None:
    """So that the refusals above are not simply of everything."""
    for _ in range(QUESTIONS // 20):
        one = question(generator)
        known = one.altitude_ft is not None and Fraction(-1700) <= one.altitude_ft <= 20_000
        if known and printed(one):
            card = process_card(
                one.product, one.method, one.pack, in_words(one.jar_ml), one.altitude_ft
            )
            assert (card.process.minutes, card.process.pressure_psi) in printed(one)


def noted(generator: np.random.Generator) -> tuple[Asked, Season]:
    """Write a random preserve into notes; raises SeasonProblems where they are refused."""
    one = question(generator)
    jar_ml = max(1, round(one.jar_ml))
    one = Asked(one.product, one.method, one.pack, Fraction(jar_ml), one.altitude_ft)
    gauges = [kind for kind in KINDS if generator.random() < 0.5] or ["boiling water"]
    equipment = "equipment,kind,jar,jars_per_load\n" + "".join(
        f'{kind[:12].replace(",", "")},"{KINDS[kind]}",{jar},7\n'
        for kind in gauges
        for jar in ("quart", "pint", "tried")
    )
    method = "pressure" if one.method.startswith("pressure") else one.method
    height = "" if one.altitude_ft is None else f"{float(one.altitude_ft):.3f}"
    if one.altitude_ft is not None:
        one = Asked(one.product, one.method, one.pack, one.jar_ml, Fraction(height))
    crops = [crop for crop in CROPS.get(one.product, []) if crop] or ["tomato"]
    crop = str(generator.choice(crops))
    season = small_season(
        household=f"household,invented,altitude_ft\nTiny,yes,{height}\n",
        jars=TABLES["jars.csv"] + f"tried,{jar_ml},40,60\n",
        equipment=equipment,
        preserves="preserve,food,crop,method,product,pack,jar\n"
        f'tried,tomatoes,{crop},{method},"{one.product}",{one.pack},tried\n',
        stock=None,
    )
    return one, season


def test_notes_never_hold_a_jar_below_what_is_printed(generator: np.random.Generator) -> None:
    passed, refused = 0, list[SeasonProblems]()
    for _ in range(max(100, QUESTIONS // 40)):
        try:
            one, season = noted(generator)
        except SeasonProblems as faults:
            refused.append(faults)
            continue
        for preserve in season.preserves:
            if not preserve.canned:
                continue
            process = preserve.process
            assert process is not None
            assert season.altitude_ft is not None
            assert process.method in {canner.method for canner in season.canners}
            never_below(
                Asked(process.product, process.method, process.pack, one.jar_ml, one.altitude_ft),
                process,
            )
            passed += 1
    assert all(fault.wanted for faults in refused for fault in faults.problems)
    assert passed or QUESTIONS < 10_000


def test_the_preserving_day_times_nothing_below_what_is_printed(
    alder_lane: Season, two_rivers: Season, generator: np.random.Generator
) -> None:
    timed = 0
    for _ in range(QUESTIONS // 5):
        season = alder_lane if generator.random() < 0.5 else two_rivers
        one = question(generator)
        jar = season.jars[int(generator.integers(len(season.jars)))]
        wanted = Wanted(one.product, 3, one.method or "boiling water", one.pack, jar.name)
        made, refused = day_products(season, [wanted])
        assert len(made) + len(refused) == 1
        assert all(no.ways and no.reason for no in refused)
        for product in made:
            assert product.card is not None
            process = product.card.process
            volume = Fraction(f"{jar.volume_l * 1000:.10g}")
            asked = Asked(process.product, process.method, process.pack, volume, season.altitude_ft)
            never_below(asked, process)
            assert process.method in {canner.method for canner in season.canners}
            timed += 1
    assert timed or QUESTIONS < 10_000


def test_a_pile_is_canned_only_as_the_tested_preserves_of_the_notes(
    alder_lane: Season, generator: np.random.Generator
) -> None:
    planned = model.plan_season(alder_lane, GLUT, years=2)
    crops = [crop.name for crop in alder_lane.crops]
    for _ in range(max(5, QUESTIONS // 2_000)):
        pile = {
            str(crop): float(generator.uniform(1, 60))
            for crop in generator.choice(crops, 4, replace=False)
        }
        for step in split_glut(planned, pile, float(generator.uniform(0, 30))).steps:
            if step.action != "can":
                continue
            own = alder_lane.preserve(step.preserve)
            assert own.process is not None
            assert own.jar is not None
            volume = Fraction(f"{alder_lane.jar(own.jar).volume_l * 1000:.10g}")
            process = own.process
            asked = Asked(
                process.product, process.method, process.pack, volume, alder_lane.altitude_ft
            )
            never_below(asked, process)


def test_the_form_shows_a_looked_up_time_or_a_refusal_with_a_way(
    alder_lane: Season, generator: np.random.Generator
) -> None:
    for _ in range(max(5, QUESTIONS // 1_000)):
        product = str(generator.choice(PRODUCTS))
        method, pack = str(generator.choice(METHODS)), str(generator.choice(PACKS))
        jar = str(generator.choice(list(JARS)))
        page: AppTest = asked_on_the_form(product, method, pack, jar)
        assert not page.exception
        told = words(page)
        known = printed(Asked(product, method, pack, JARS[jar], alder_lane.altitude_ft))
        shown = {f"**{minutes} minutes " in told for minutes, _ in known}
        if page.error:
            assert not known, (product, method, pack, jar)
            assert "Ways that remain" in told
        else:
            assert True in shown, (product, method, pack, jar, told)
