"""What lived years come to, food by food: much smaller than the years themselves."""

from dataclasses import dataclass

import numpy as np

from model.season.arrays import Ints, SeasonArrays, Singles
from model.simulation.lived_years import LivedYears


@dataclass(frozen=True, eq=False)
class FoodYears:
    """Portions of each food in each year.

    Parameters
    ----------
    shelf : shape (Y, F, W), on the shelf at each week's end.
    met, fresh : shape (Y, F, W), eaten in all, and of that fresh.
    usual : shape (F, W), wanted with the usual ``appetite`` (Y, F).
    """

    shelf: Singles
    met: Singles
    fresh: Singles
    usual: Singles
    appetite: Singles

    def wanted(self, foods: Ints, begins: int, ends: int) -> Singles:
        """Give the portions wanted of some foods in a stretch of weeks; shape (Y, foods, weeks)."""
        portions: Singles = self.appetite[:, foods, None] * self.usual[foods, begins:ends]
        return portions


def food_years(lived: LivedYears, arrays: SeasonArrays) -> FoodYears:
    """Sum lived years by food."""
    portions = arrays.portions.astype(np.float32)
    shelf = np.zeros_like(lived.met)
    for r, food in enumerate(arrays.food_of_preserve):
        shelf[:, food] += lived.shelf[:, r] * portions[r]
    return FoodYears(shelf, lived.met, lived.fresh, lived.usual, lived.appetite)
