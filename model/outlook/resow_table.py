"""A sowing failed: whether another still makes it, else what could stand in its place."""

from collections.abc import Hashable, Mapping
from typing import Any

import pandas as pd

from model.forecast.setbacks import has_failed
from model.forecast.sowing import can_be_dated
from model.outlook.food_table import food_table
from model.outlook.sowing_table import sowing_table
from model.planning import PlannedSeason
from model.reference.lookup import crop as reference_crop
from model.season.garden import Crop
from model.season.household import Food

# What the quick crops of the tables are on the plate, all of them.
QUICK_GROUP = "vegetable"
BY_AREA = "m2 of bed"
LEAST_SHORT = 1.0
DAYS = ("latest_nine", "latest_five", "latest_two", "chance_today")
COLUMNS = (
    *("crop", *DAYS),
    *("instead", "instead_bed", "instead_m2", "instead_kg", "instead_portions"),
    *("replaces", "short_portions"),
)


def failed_crops(planned: PlannedSeason) -> tuple[str, ...]:
    """Name the crops of this garden year of whose plantings a setback has left next to nothing."""
    case = planned.case
    return tuple(
        dict.fromkeys(
            planting.crop
            for planting, amount in zip(case.forecast.plantings, planned.plan.amounts, strict=True)
            if amount > 0
            and has_failed(case.season, planting, case.today)
            and can_be_dated(case.season.crop(planting.crop))
        )
    )


def resow_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a crop that failed: the last days to start it again, and the best catch crop.

    ``replaces`` is the food the crop would have been, or else that of the same group which is
    short of most portions by the plan. ``instead`` is the quick crop that should fill most of
    what is short from the bed with the most room, on no more ground than it takes for that, its
    yield the published one. All are blank where nothing is short or nothing quick makes it.

    >>> print(*model.resow_table(planned))
    crop latest_nine latest_five latest_two chance_today instead instead_bed instead_m2 instead_kg
    instead_portions replaces short_portions
    """
    failed = failed_crops(planned)
    if not failed:
        return pd.DataFrame(columns=list(COLUMNS))
    sowing = sowing_table(planned)
    caught = sowing[sowing["catch_crop"]]
    own = sowing[~sowing["catch_crop"]].set_index("crop")
    rows = [
        {
            "crop": name,
            **{column: own.loc[name, column] for column in DAYS},
            **_instead(planned, caught, name),
        }
        for name in failed
    ]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _instead(planned: PlannedSeason, caught: pd.DataFrame, failed: str) -> Mapping[str, object]:
    """Give the catch crop that fills most of what is short of the food it stands in for."""
    season = planned.case.season
    foods = food_table(planned).set_index("food")
    missing = foods["wanted_portions"] - foods["met_portions"]
    short = [
        food
        for food in season.foods
        if food.group == QUICK_GROUP and food.plate and missing[food.name] >= LEAST_SHORT
    ]
    if caught.empty or not short:
        return {}
    own = season.food_of_crop(failed)
    food = own if own in short else max(short, key=lambda food: float(missing[food.name]))
    wanted = float(missing[food.name])

    def gives(row: Mapping[Hashable, Any]) -> tuple[float, float]:
        """Give the portions from a square metre, by their chance, and those that are used."""
        a_m2 = row["chance_today"] * _portions_a_m2(reference_crop(row["crop"]), food)
        return a_m2, min(wanted, a_m2 * row["free_m2"])

    best = max(caught.to_dict("records"), key=lambda row: (gives(row)[1], gives(row)[0]))
    a_m2, portions = gives(best)
    ground = portions / a_m2
    return {
        "instead": best["crop"],
        "instead_bed": best["free_bed"],
        "instead_m2": ground,
        "instead_kg": best["chance_today"] * _kg_a_m2(reference_crop(best["crop"])) * ground,
        "instead_portions": portions,
        "replaces": food.name,
        "short_portions": wanted,
    }


def _portions_a_m2(crop: Crop, food: Food) -> float:
    return _kg_a_m2(crop) * crop.edible_share * 1000.0 / food.portion_g


def _kg_a_m2(crop: Crop) -> float:
    return next(y.kg_typical for y in crop.yields if y.per == BY_AREA)
