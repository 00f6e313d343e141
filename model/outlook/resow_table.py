"""A sowing failed: whether another still makes it, else what could stand in its place."""

from collections.abc import Mapping

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
COLUMNS = (
    *("crop", "latest_nine", "latest_five", "chance_today"),
    *("instead", "instead_bed", "instead_kg", "instead_portions", "replaces", "short_portions"),
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

    ``instead`` is the quick crop that should give most portions in the bed with the most room,
    its yield the published one; ``replaces`` the food of the same group that is short of most
    portions by the plan. Both are blank where there is none.
    """
    failed = failed_crops(planned)
    if not failed:
        return pd.DataFrame(columns=list(COLUMNS))
    sowing = sowing_table(planned)
    instead = _instead(planned, sowing[sowing["catch_crop"]])
    own = sowing[~sowing["catch_crop"]].set_index("crop")
    rows = [
        {
            "crop": name,
            **{column: own.loc[name, column] for column in COLUMNS[1:4]},
            **instead,
        }
        for name in failed
    ]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _instead(planned: PlannedSeason, caught: pd.DataFrame) -> Mapping[str, object]:
    """Give the catch crop that should give most portions of the food that is shortest."""
    season = planned.case.season
    foods = food_table(planned).set_index("food")
    short = foods["wanted_portions"] - foods["met_portions"]
    group = [food for food in season.foods if food.group == QUICK_GROUP and food.plate]
    if caught.empty or not group:
        return {}
    shortest = max(group, key=lambda food: float(short[food.name]))
    gives = [
        (row["chance_today"] * _kg_a_m2(reference_crop(row["crop"])) * row["free_m2"], row)
        for row in caught.to_dict("records")
    ]
    kg, row = max(gives, key=lambda pair: _portions(pair[0], pair[1]["crop"], shortest))
    missing = float(short[shortest.name])
    return {
        "instead": row["crop"],
        "instead_bed": row["free_bed"],
        "instead_kg": kg,
        "instead_portions": _portions(kg, row["crop"], shortest),
        "replaces": shortest.name if missing >= 1 else "",
        "short_portions": missing,
    }


def _portions(kg: float, crop: str, food: Food) -> float:
    return kg * reference_crop(crop).edible_share * 1000.0 / food.portion_g


def _kg_a_m2(crop: Crop) -> float:
    return next((y.kg_typical for y in crop.yields if y.per == BY_AREA), 0.0)
