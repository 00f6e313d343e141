from datetime import date

import numpy as np
import pytest

from model.case import make_case
from model.cover import cover_windows
from model.planting.by_hand import hand_amounts
from tests.small_season import TABLES, small_season

TODAY = date(2027, 3, 1)


def test_jars_are_turned_back_into_plants_as_a_person_would() -> None:
    """(jars x kg a jar + kg fresh) x (1 + margin) / kg a plant; common practice, no source."""
    heading, *rows = TABLES["plantings.csv"].splitlines()
    free = [f"{heading},least_percent,most_percent", *(f"{row},0,900" for row in rows)]
    season = small_season(plantings="\n".join(free) + "\n", beds="bed,area_m2\nonly bed,300\n")
    case = make_case(season, TODAY)
    windows = cover_windows(case)
    tomato = [crop.name for crop in season.crops].index("tomato")
    jars_kg = sum(
        window.hand_rule.to_fill * part.kg
        for window, preserve in zip(windows, season.preserves, strict=True)
        for part in preserve.ingredients
        if part.crop == "tomato"
    )
    row = case.arrays.foods.index("tomatoes")
    picked = case.forecast.kg_per_unit[1] > 0
    fresh_kg = case.demand.wanted[row, picked].sum() / case.arrays.portions_per_kg[tomato]
    a_plant_kg = case.forecast.kg_per_unit[1].sum()

    for margin in (0.0, 0.25):
        expected = (jars_kg + fresh_kg) * (1 + margin) / a_plant_kg
        assert hand_amounts(case, windows, margin)[1] == pytest.approx(expected, rel=1e-6)


def test_what_does_not_fit_the_bed_is_taken_from_what_is_liked_least() -> None:
    heading, *rows = TABLES["plantings.csv"].splitlines()
    free = [f"{heading},least_percent,most_percent", *(f"{row},0,900" for row in rows)]
    season = small_season(plantings="\n".join(free) + "\n", beds="bed,area_m2\nonly bed,9\n")
    case = make_case(season, TODAY)
    wide = make_case(
        small_season(plantings="\n".join(free) + "\n", beds="bed,area_m2\nonly bed,300\n"), TODAY
    )
    here, there = (hand_amounts(c, cover_windows(c), 0.5) for c in (case, wide))
    areas = np.array([p.area_m2_per_unit for p in case.forecast.plantings])

    # beans are liked 4, tomatoes 5 (tests/small_season.py)
    assert here[0] < there[0]
    assert here @ areas <= 9 + 1e-6
