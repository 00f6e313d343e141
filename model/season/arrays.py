"""The one door from nouns to numbers: arrays in season order, read-only.

Axes, always in this order: C crops, F foods, R preserves, Z jar sizes, P places, W weeks.
"""

from dataclasses import dataclass, fields
from datetime import timedelta

import numpy as np
from numpy.typing import NDArray

from model.season.holding import good_next_week_kg, hold_weeks
from model.season.kitchen import KitchenHours, Place, Preserve
from model.season.ledger import Standing
from model.season.season import Season
from model.season.weeks import Weeks, monday_of

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class SeasonArrays:
    """Coefficients of one season over a run of weeks.

    Parameters
    ----------
    food_of_crop, jar_of : shape (C,) and (R,); index, or -1 for none.
    portions_per_kg : shape (C,), portions in a kilogram as picked.
    good_next_week_kg : shape (C,), picked in week 0 of what holds only a week, and still good.
    fresh_kg : shape (R, C), kilograms as picked in one unit of a preserve.
    prepared_kg : shape (R,), the same trimmed, shelled and stoned: what the freezer freezes.
    portions : shape (R,), portions in one unit.
    units_per_load : shape (R,), jars in a full load; 0 where nothing is done in loads.
    sealed_share : shape (R,), the part of what is filled that counts.
    food_worth, preserve_worth : shape (F,) and (R,), worth of a wanted portion; a whole
        plate portion liked best is 1.
    most_portions_a_week : shape (R,), infinite without a cap.
    target : shape (R,), sealed units wanted; nan where the plan finds it.
    space_per_unit, place_capacity : shape (R,) and (P,), in the unit of the place.
    freezer_kg_a_week : shape (P, W), prepared kilograms a freezer takes; infinite elsewhere.
    dryer_kg_a_week : fresh kilograms the dryers take.
    owned_jars, lids : shape (Z,), infinite where any number can be had.
    kitchen_minutes : shape (W,).
    gifts : shape (R, W), units promised away.
    opening_units : shape (R,), standing there before week 0.
    opening_left : shape (R, W), how much of it is not yet past it at a week's end.
    """

    weeks: Weeks
    crops: tuple[str, ...]
    foods: tuple[str, ...]
    preserves: tuple[str, ...]
    jars: tuple[str, ...]
    places: tuple[str, ...]
    food_of_crop: Ints
    portions_per_kg: Floats
    hold_weeks: Ints
    good_next_week_kg: Floats
    food_of_preserve: Ints
    fresh_kg: Floats
    prepared_kg: Floats
    portions: Floats
    minutes_per_unit: Floats
    minutes_per_load: Floats
    units_per_load: Ints
    canned: Bools
    dried: Bools
    jar_of: Ints
    place_of: Ints
    space_per_unit: Floats
    keeps_weeks: Ints
    ready_after_weeks: Ints
    loss_per_week: Floats
    sealed_share: Floats
    share_of_food: Floats
    food_worth: Floats
    preserve_worth: Floats
    most_portions_a_week: Floats
    target: Floats
    place_capacity: Floats
    freezer_kg_a_week: Floats
    dryer_kg_a_week: float
    owned_jars: Floats
    lids: Floats
    kitchen_minutes: Floats
    gifts: Floats
    opening_units: Floats
    opening_left: Floats

    def __post_init__(self) -> None:
        """Check that every array is as long as its axes say and finite; make it read-only."""
        crops, foods, rows = len(self.crops), len(self.foods), len(self.preserves)
        jars, places, weeks = len(self.jars), len(self.places), len(self.weeks)
        by_axis: tuple[tuple[tuple[int, ...], tuple[str, ...]], ...] = (
            ((crops,), ("food_of_crop", "portions_per_kg", "hold_weeks", "good_next_week_kg")),
            ((foods,), ("food_worth",)),
            ((rows, crops), ("fresh_kg",)),
            ((jars,), ("owned_jars", "lids")),
            ((places,), ("place_capacity",)),
            ((places, weeks), ("freezer_kg_a_week",)),
            ((weeks,), ("kitchen_minutes",)),
            ((rows, weeks), ("gifts", "opening_left")),
        )
        shapes = {name: shape for shape, names in by_axis for name in names}
        for field in fields(self):
            array = getattr(self, field.name)
            if isinstance(array, np.ndarray):
                expected = shapes.get(field.name, (rows,))
                if array.shape != expected:
                    raise ValueError(f"{field.name} has shape {array.shape}, not {expected}")
                if field.name != "target" and np.isnan(array.astype(float)).any():
                    raise ValueError(f"{field.name} holds a number that is none")
                array.flags.writeable = False

    def freezes(self, place: int) -> bool:
        """Say whether a place is a freezer."""
        return bool(np.isfinite(self.freezer_kg_a_week[place, 0]))


def season_arrays(
    season: Season, weeks: Weeks, stock: tuple[Standing, ...], unsealed_share: float
) -> SeasonArrays:
    """Give the numbers of a season over the weeks from today on, with what stands there today.

    Parameters
    ----------
    unsealed_share : of the jars that are canned.
    """
    crops = tuple(crop.name for crop in season.crops)
    foods = tuple(food.name for food in season.foods)
    jars = tuple(jar.name for jar in season.jars)
    places = tuple(place.name for place in season.places)
    rows = season.preserves
    chosen = season.settings
    fresh_kg = np.zeros((len(rows), len(crops)))
    for r, preserve in enumerate(rows):
        for part in preserve.ingredients:
            fresh_kg[r, crops.index(part.crop)] += part.kg
    eaten_as = [season.food_of_crop(name) for name in crops]
    opening_units, opening_left = _opening_stock(season, weeks, stock)
    jar_of = np.array([jars.index(p.jar) if p.jar else -1 for p in rows], dtype=int)
    place_of = np.array([places.index(p.place) for p in rows], dtype=int)
    units_space = opening_units * np.array([p.space_per_unit for p in rows])
    freezer_rate = chosen.freezer_load_g_per_l_day * 7 / 1000
    plate_g = 80.0
    portion_weight = {food.name: food.portion_g / plate_g for food in season.foods}
    return SeasonArrays(
        weeks=weeks,
        crops=crops,
        foods=foods,
        preserves=tuple(preserve.name for preserve in rows),
        jars=jars,
        places=places,
        food_of_crop=np.array([foods.index(f.name) if f else -1 for f in eaten_as], dtype=int),
        portions_per_kg=np.array(
            [
                crop.edible_share * 1000.0 / (food.portion_g if food else plate_g)
                for crop, food in zip(season.crops, eaten_as, strict=True)
            ]
        ),
        hold_weeks=np.array([hold_weeks(season, name) for name in crops], dtype=int),
        good_next_week_kg=np.array(good_next_week_kg(season, weeks)),
        food_of_preserve=np.array([foods.index(p.food) for p in rows], dtype=int),
        fresh_kg=fresh_kg,
        prepared_kg=fresh_kg @ np.array([crop.edible_share for crop in season.crops]),
        portions=np.array([p.portions for p in rows]),
        minutes_per_unit=np.array([p.minutes_per_unit for p in rows]),
        minutes_per_load=np.array([p.minutes_per_load for p in rows]),
        units_per_load=np.array([p.units_per_load or 0 for p in rows], dtype=int),
        canned=np.array([p.canned for p in rows], dtype=bool),
        dried=np.array([p.method == "dry" for p in rows], dtype=bool),
        jar_of=jar_of,
        place_of=place_of,
        space_per_unit=np.array([p.space_per_unit for p in rows]),
        keeps_weeks=np.array([p.keeps_weeks for p in rows], dtype=int),
        ready_after_weeks=np.array([p.ready_after_weeks for p in rows], dtype=int),
        loss_per_week=np.array([p.loss_per_week for p in rows]),
        sealed_share=np.array([1 - unsealed_share if p.canned else 1.0 for p in rows]),
        share_of_food=np.array([p.share_of_food for p in rows]),
        food_worth=np.array([f.liking / 5 * portion_weight[f.name] for f in season.foods]),
        preserve_worth=np.array([p.liking / 5 * portion_weight[p.food] for p in rows]),
        most_portions_a_week=np.array([p.most_portions_a_week or np.inf for p in rows]),
        target=np.array([np.nan if p.target is None else float(p.target) for p in rows]),
        place_capacity=_at_least(
            np.array([place.capacity for place in season.places]), place_of, units_space
        ),
        freezer_kg_a_week=np.array(
            [_freezing(place, freezer_rate, weeks) for place in season.places]
        ).reshape(len(season.places), len(weeks)),
        dryer_kg_a_week=sum(d.fresh_kg_per_load * d.loads_per_week for d in season.dryers),
        owned_jars=_at_least(
            np.array([np.inf if j.owned is None else float(j.owned) for j in season.jars]),
            jar_of,
            np.where([p.canned for p in rows], opening_units, 0.0),
        ),
        lids=np.array([np.inf if j.lids is None else float(j.lids) for j in season.jars]),
        kitchen_minutes=_kitchen_minutes(season.kitchen_hours, weeks),
        gifts=_gifts(season, weeks),
        opening_units=opening_units,
        opening_left=opening_left,
    )


def _at_least(limit: Floats, index: Ints, there: Floats) -> Floats:
    """Raise limits to what stands there already: what was counted is true, the limit was not."""
    used = np.zeros(len(limit))
    np.add.at(used, index[index >= 0], there[index >= 0])
    raised: Floats = np.maximum(limit, used)
    return raised


def with_this_week(harvest_kg: Floats, before_kg: Floats) -> tuple[Floats, Floats]:
    """Count what was picked of the first week to its harvest; give that, and the weeks before.

    Parameters
    ----------
    harvest_kg : shape (C, W).
    before_kg : shape (C, H), the newest last, of the first week.
    """
    picked = harvest_kg.copy()
    picked[:, 0] += before_kg[:, -1:].sum(axis=1)
    return picked, before_kg[:, :-1]


def _freezing(place: Place, kg_per_l: float, weeks: Weeks) -> Floats:
    """Give the kilograms that a freezer takes in each week, none before it works; shape (W,)."""
    if place.kind != "freezer":
        return np.full(len(weeks), np.inf)
    days = np.full(len(weeks), 7.0)
    if place.works_from is not None:
        days = np.array(weeks.days_inside(place.works_from, weeks.monday(len(weeks))), dtype=float)
    return place.volume_l * kg_per_l * days / 7


def _kitchen_minutes(stretches: tuple[KitchenHours, ...], weeks: Weeks) -> Floats:
    """Give the minutes of each week, day by day; a later row goes before an earlier one."""
    usual = next((s.hours_a_week for s in stretches if s.begins is None), 0.0)
    dated = [s for s in stretches if s.begins is not None]
    minutes = np.zeros(len(weeks))
    for week, monday in enumerate(weeks.mondays):
        for offset in range(0 if week else weeks.days_over, 7):
            day = monday + timedelta(days=offset)
            hours = usual
            for stretch in dated:
                if stretch.begins and stretch.ends and stretch.begins <= day <= stretch.ends:
                    hours = stretch.hours_a_week
            minutes[week] += hours * 60 / 7
    return minutes


def _gifts(season: Season, weeks: Weeks) -> Floats:
    gifts = np.zeros((len(season.preserves), len(weeks)))
    names = [preserve.name for preserve in season.preserves]
    for gift in season.gifts:
        week = weeks.index(gift.day)
        if gift.day >= weeks.today and week < len(weeks):
            gifts[names.index(gift.preserve), week] += gift.units
    return gifts


def _opening_stock(
    season: Season, weeks: Weeks, stock: tuple[Standing, ...]
) -> tuple[Floats, Floats]:
    rows: tuple[Preserve, ...] = season.preserves
    units = np.zeros(len(rows))
    left = np.zeros((len(rows), len(weeks)))
    names = [preserve.name for preserve in rows]
    after = np.arange(len(weeks))
    for count in stock:
        r = names.index(count.preserve)
        put_up = (monday_of(count.put_up) - weeks.first).days // 7
        fresh_enough = after < put_up + rows[r].keeps_weeks
        units[r] += count.units
        left[r] += count.units * fresh_enough * (1 - rows[r].loss_per_week) ** (after + 1)
    return units, left
