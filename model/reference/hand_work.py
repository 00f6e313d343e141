"""Minutes of hand work that go into one jar (pack, bag, kilogram, litre)."""

from collections.abc import Mapping

from model.reference.lookup import hand_minutes_per_kg, products
from model.season.settings import Settings

COOKED_DOWN = ("Tomato sauce", "Tomato ketchup", "Ketchup", "Salsa", "Apple butter", "Spaghetti")
# Common practice, no source: a kilogram of a crop whose preparing stands in no table.
PREPARE_MINUTES_PER_KG = 8.0


def hand_minutes(
    parts: Mapping[str, float], method: str, volume_l: float, product: str, chosen: Settings
) -> float:
    """Give the minutes for one.

    Parameters
    ----------
    parts : kilograms of each crop in one.
    product : the tested product; blank where nothing is canned.
    """
    extra = hand_minutes_per_kg(method, "any") or 0.0
    if method == "root store":
        return extra
    if method == "dry":
        extra += chosen.dryer_minutes_per_kg
    minutes = sum(
        kg * ((hand_minutes_per_kg("prepare", crop) or PREPARE_MINUTES_PER_KG) + extra)
        for crop, kg in parts.items()
    )
    if not product:
        return minutes
    if products()[product]["group"] == "spread" and not product.startswith("Apple butter"):
        return minutes + chosen.jam_minutes_per_l * volume_l
    if product.startswith(COOKED_DOWN):
        return minutes + chosen.sauce_minutes_per_l * volume_l
    return minutes
