"""What is left this week of hours, jars, places, freezing and drying, for many years at once."""

import numpy as np

from model.season.arrays import Bools, Ints, SeasonArrays, Singles

# Single precision and whole jars: a thousandth of a unit decides nothing.
NEARLY = np.float32(1e-3)


class KitchenRoom:
    """The week's room, used up step by step.

    Years lie along the last axis here (N), so that one preserve's years lie together.
    """

    def __init__(
        self, arrays: SeasonArrays, week: int, units: Singles, gone: Singles, opening: Singles
    ) -> None:
        """Begin the week with all of it.

        Parameters
        ----------
        units : shape (R, N), on the shelf as the week begins.
        gone : shape (Z, N), jars given away for good.
        opening : shape (R, 1), units that the plan opens this week, which make room.
        """
        rows, years = units.shape
        self._arrays = arrays
        self._fresh_kg = arrays.fresh_kg.sum(axis=1)
        self._minutes = np.full(years, arrays.kitchen_minutes[week], dtype=np.float32)
        self._made = np.zeros((rows, years), dtype=np.float32)
        self._loads = np.zeros((rows, years), dtype=np.float32)
        standing = np.maximum(units - opening, 0)
        in_jars = _members(arrays.jar_of, arrays.canned, len(arrays.jars))
        in_places = _members(arrays.place_of, arrays.place_of >= 0, len(arrays.places))
        self._jars = arrays.owned_jars[:, None].astype(np.float32) - in_jars @ units - gone
        filled = (in_places * arrays.space_per_unit.astype(np.float32)) @ standing
        self._space = arrays.place_capacity[:, None].astype(np.float32) - filled
        self._freezing = np.repeat(
            arrays.freezer_kg_a_week[:, [week]].astype(np.float32), years, axis=1
        )
        self._drying = np.full(years, arrays.dryer_kg_a_week, dtype=np.float32)
        self.minutes_used = np.zeros(years, dtype=np.float32)

    def left_for(self, r: int) -> Singles:
        """Give how many units of a preserve can still be put up this week; shape (N,)."""
        arrays, place = self._arrays, self._arrays.place_of[r]
        left = np.minimum(
            self._by_time(r), self._space[place] / np.float32(arrays.space_per_unit[r])
        )
        fresh_kg = np.float32(self._fresh_kg[r])
        if arrays.freezes(place):
            left = np.minimum(left, self._freezing[place] / np.float32(arrays.prepared_kg[r]))
        if arrays.canned[r]:
            left = np.minimum(left, self._jars[arrays.jar_of[r]])
        if arrays.dried[r]:
            left = np.minimum(left, self._drying / fresh_kg)
        allowed: Singles = np.maximum(left, 0) + NEARLY
        return allowed

    def _by_time(self, r: int) -> Singles:
        """Give the units that the minutes left allow: whole loads, then part of one more."""
        arrays = self._arrays
        each = np.float32(max(arrays.minutes_per_unit[r], 1e-6))
        size = np.float32(arrays.units_per_load[r])
        if not size:
            by_hand: Singles = self._minutes / each
            return by_hand
        load = np.float32(arrays.minutes_per_load[r])
        begun = self._loads[r] * size - self._made[r]
        minutes = np.maximum(self._minutes - begun * each, 0)
        whole = np.floor((minutes + NEARLY) / (load + size * each))
        part = np.clip((minutes - whole * (load + size * each) - load) / each, 0, size)
        by_loads: Singles = np.minimum(begun, self._minutes / each) + whole * size + part
        return by_loads

    def take(self, r: int, units: Singles) -> None:
        """Use up what units of a preserve take."""
        arrays, place = self._arrays, self._arrays.place_of[r]
        fresh_kg = np.float32(self._fresh_kg[r])
        self._made[r] += units
        minutes = units * np.float32(arrays.minutes_per_unit[r])
        if arrays.units_per_load[r]:
            size = np.float32(arrays.units_per_load[r])
            loads = np.maximum(np.ceil((self._made[r] - NEARLY) / size), 0)
            minutes += (loads - self._loads[r]) * np.float32(arrays.minutes_per_load[r])
            self._loads[r] = loads
        self._minutes -= minutes
        self.minutes_used += minutes
        self._space[place] -= units * np.float32(arrays.space_per_unit[r])
        if arrays.freezes(place):
            self._freezing[place] -= units * np.float32(arrays.prepared_kg[r])
        if arrays.canned[r]:
            self._jars[arrays.jar_of[r]] -= units
        if arrays.dried[r]:
            self._drying -= units * fresh_kg


def _members(group_of: Ints, counts: Bools, groups: int) -> Singles:
    """Give a matrix that sums rows into their groups; shape (groups, rows), 0 or 1."""
    member = (group_of[None, :] == np.arange(groups)[:, None]) & counts[None, :]
    return np.asarray(member, dtype=np.float32)
