"""What a crop should give in a whole season, and when."""

from dataclasses import replace
from datetime import date

import pytest

import model
from model.case import make_case
from model.season.garden import Setback
from model.season.season import Season

SPRING, SUMMER = date(2027, 3, 1), date(2027, 8, 16)


def test_a_whole_season_is_what_the_forecast_of_its_spring_sums_to(tiny: Season) -> None:
    case = make_case(tiny, SPRING)
    forecast = case.forecast
    kg = forecast.kg_by_crop(forecast.amounts, len(tiny.crops)).sum(axis=1)
    by_crop = {crop.name: kg[c] for c, crop in enumerate(tiny.crops)}

    for crop, whole in by_crop.items():
        usual = model.usual_picking(tiny, crop, SUMMER)
        assert usual is not None
        # the forecast of a spring also reckons with the autumn frost and with a late spring one
        assert usual.whole_kg == pytest.approx(whole, rel=0.1)


def test_hail_makes_no_picking_of_before_it_too_large(tiny: Season) -> None:
    hail = replace(tiny, setbacks=(Setback(date(2027, 8, 10), "tomato", 0.9),))
    calm, hurt = (model.usual_picking(one, "tomato", SUMMER) for one in (tiny, hail))

    assert calm == hurt


def test_what_is_planted_in_no_year_of_that_day_has_nothing_usual(tiny: Season) -> None:
    assert model.usual_picking(tiny, "tomato", date(2026, 12, 31)) is None
    assert model.usual_picking(tiny, "peach", SUMMER) is None
