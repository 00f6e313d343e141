"""One year lived through in plain Python, written from the rules in words and not from the code.

The reference for ``model.simulation``: same questions in the same order, one number at a time.
"""

from dataclasses import dataclass, field

import numpy as np

from model.plan import Plan
from model.season.arrays import SeasonArrays
from model.simulation.luck import KitchenLuck

NEARLY = 1e-3


def unsealed_of(luck: KitchenLuck, year: int) -> np.ndarray:
    """Give the share that does not seal, by preserve and week, in one year."""
    one = slice(year, year + 1)
    return np.stack([luck.unsealed_in(w, one)[:, 0] for w in range(len(luck.unsealed))], axis=1)


@dataclass
class Year:
    """One year on its way: numbers by crop or preserve."""

    plan: Plan
    arrays: SeasonArrays
    weeks_to_cover: list[int]
    harvest: list[list[float]]
    unsealed: list[list[float]]
    appetite: list[float]
    as_wanted: bool
    shelf: list[list[float]] = field(default_factory=list)
    met: list[list[float]] = field(default_factory=list)

    def live(self) -> "Year":
        """Live through all weeks."""
        arrays = self.arrays
        self.before = self.plan.before_kg.tolist()
        self.on_hand = [
            sum(kg[-int(span) :]) for kg, span in zip(self.before, arrays.hold_weeks, strict=True)
        ]
        self.picked = [0.0] * len(arrays.crops)
        self.units = [float(units) for units in arrays.opening_units]
        self.filled = [0.0] * len(arrays.preserves)
        self.gone = [0.0] * len(arrays.jars)
        self.sealed: list[list[float]] = []
        for week in range(len(self.plan.weeks)):
            self._week(week)
        return self

    def _week(self, week: int) -> None:
        plan, arrays = self.plan, self.arrays
        for c in range(len(arrays.crops)):
            self.on_hand[c] += self.harvest[c][week]
            self.picked[c] += self.harvest[c][week]
        aimed = [self._aimed(f, week) for f in range(len(arrays.foods))]
        eaten = [0.0] * len(arrays.foods)
        wanted = [self.appetite[f] * float(plan.wanted[f, week]) for f in range(len(arrays.foods))]
        first = [min(aim, want) for aim, want in zip(aimed, wanted, strict=True)]
        for c in range(len(arrays.crops)):
            self._eat(c, first, eaten, np.inf if self.as_wanted else plan.eaten_kg[c, week], 0.0)
        made = self._put_up(week)
        last = [max(aim, want) for aim, want in zip(aimed, wanted, strict=True)]
        for c in range(len(arrays.crops)):
            keep = 0.0 if self.as_wanted else float(plan.on_hand_kg[c, week])
            self._eat(c, last, eaten, np.inf, keep)
        self._hold(week)
        missing = [max(0.0, want - got) for want, got in zip(aimed, eaten, strict=True)]
        opened = self._open(week, made, missing)
        self.met.append(
            [
                eaten[f]
                + sum(
                    opened[r] * arrays.portions[r]
                    for r in range(len(arrays.preserves))
                    if arrays.food_of_preserve[r] == f
                )
                for f in range(len(arrays.foods))
            ]
        )
        self.shelf.append(list(self.units))

    def _aimed(self, f: int, week: int) -> float:
        plan, arrays = self.plan, self.arrays
        if self.as_wanted:
            return self.appetite[f] * float(plan.wanted[f, week])
        above = 0.0
        for r in range(len(arrays.preserves)):
            if arrays.food_of_preserve[r] == f:
                planned = plan.shelf[r, week - 1] if week else arrays.opening_units[r]
                above += (self.units[r] - planned) * arrays.portions[r]
        left = max(1, self.weeks_to_cover[f] - week)
        pace = float(plan.met[f, week])
        want = float(plan.wanted[f, week])
        most = max(pace, want) if above >= -1e-2 else want
        return self.appetite[f] * min(max(pace + above / left, 0.9 * pace), most)

    def _eat(
        self, c: int, aimed: list[float], eaten: list[float], most: float, keep: float
    ) -> None:
        f = int(self.arrays.food_of_crop[c])
        if f < 0:
            return
        per_kg = float(self.arrays.portions_per_kg[c])
        take = min(self.on_hand[c] - keep, max(aimed[f] - eaten[f], 0.0) / per_kg)
        take = min(max(take, 0.0), most)
        self.on_hand[c] -= take
        eaten[f] += take * per_kg

    def _put_up(self, week: int) -> list[float]:
        plan, arrays = self.plan, self.arrays
        rows = range(len(arrays.preserves))
        room = Room(self, week)
        made = [0.0] * len(arrays.preserves)
        for r in rows:
            due = float(plan.put_up[r, : week + 1].sum()) - self.filled[r]
            made[r] += self._fill(r, due, room)
        for r in rows:
            main = int(arrays.fresh_kg[r].argmax())
            expected = float(plan.harvest_kg[main, : week + 1].sum())
            if self.picked[main] > expected * (1 + 1e-4) + NEARLY:
                made[r] += self._fill(r, float(plan.put_up[r].sum()) - self.filled[r], room)
        return made

    def _fill(self, r: int, wanted: float, room: "Room") -> float:
        arrays = self.arrays
        if wanted <= NEARLY:
            return 0.0
        units = min(wanted, room.left_for(r))
        for c in range(len(arrays.crops)):
            if arrays.fresh_kg[r, c]:
                units = min(units, self.on_hand[c] / arrays.fresh_kg[r, c])
        if arrays.canned[r]:
            units = float(int(units + NEARLY))
        for c in range(len(arrays.crops)):
            self.on_hand[c] = max(0.0, self.on_hand[c] - units * arrays.fresh_kg[r, c])
        room.take(r, units)
        self.filled[r] += units
        return units

    def _hold(self, week: int) -> None:
        for c, span in enumerate(self.arrays.hold_weeks):
            before, harvest = self.before[c], self.harvest[c]
            picked = [*before[:-1], before[-1] + harvest[0], *harvest[1 : week + 1]]
            recent = sum(picked[len(picked) - int(span) + 1 :])
            late = 0.0 if week else float(self.arrays.good_next_week_kg[c])
            self.on_hand[c] = min(self.on_hand[c], recent if span > 1 else late)

    def _open(self, week: int, made: list[float], missing: list[float]) -> list[float]:
        plan, arrays = self.plan, self.arrays
        rows = range(len(arrays.preserves))
        self.sealed.append([made[r] * (1 - self.unsealed[r][week]) for r in rows])
        held = [self.units[r] * (1 - arrays.loss_per_week[r]) + self.sealed[-1][r] for r in rows]
        ready = []
        for r in rows:
            waiting = int(arrays.ready_after_weeks[r])
            young = self.sealed[max(0, week - waiting + 1) :] if waiting else []
            ready.append(max(0.0, held[r] - sum(batch[r] for batch in young)))
        given = [min(ready[r], float(plan.given[r, week])) for r in rows]
        ready = [ready[r] - given[r] for r in rows]
        opened = [0.0 for _ in rows]
        for f in range(len(arrays.foods)):
            own = [r for r in rows if arrays.food_of_preserve[r] == f]
            planned = {r: min(ready[r], float(plan.opened[r, week])) for r in own}
            portions = sum(planned[r] * arrays.portions[r] for r in own)
            less = min(1.0, missing[f] / max(portions, NEARLY))
            take = {r: planned[r] * less for r in own}
            still = max(0.0, missing[f] - sum(take[r] * arrays.portions[r] for r in own))
            most = {r: min(arrays.most_portions_a_week[r] / arrays.portions[r], 1e9) for r in own}
            left = {r: max(0.0, min(ready[r], most[r]) - take[r]) for r in own}
            portions = sum(left[r] * arrays.portions[r] for r in own)
            share = min(1.0, still / max(portions, NEARLY)) if still > NEARLY else 0.0
            for r in own:
                opened[r] = take[r] + left[r] * share
        for r in rows:
            self.units[r] = min(held[r] - opened[r] - given[r], self._good(r, week))
            self.units[r] = max(0.0, self.units[r])
            if arrays.canned[r]:
                self.gone[int(arrays.jar_of[r])] += given[r]
        return opened

    def _good(self, r: int, week: int) -> float:
        arrays = self.arrays
        life = int(arrays.keeps_weeks[r])
        kept = 1 - arrays.loss_per_week[r]
        recent = range(max(0, week - life + 1), week + 1)
        good = sum(self.sealed[made][r] * kept ** (week - made) for made in recent)
        return float(good + arrays.opening_left[r, week])


class Room:
    """What is left of a week's hours, jars, places, freezing and drying."""

    def __init__(self, year: Year, week: int) -> None:
        """Begin the week with all of it, less what stands on the shelf and is not opened."""
        arrays, plan = year.arrays, year.plan
        self.arrays = arrays
        self.minutes = float(arrays.kitchen_minutes[week])
        self.made = [0.0] * len(arrays.preserves)
        self.loads = [0] * len(arrays.preserves)
        self.jars = [float(arrays.owned_jars[z]) - year.gone[z] for z in range(len(arrays.jars))]
        self.space = [float(room) for room in arrays.place_capacity]
        self.freezing = [float(kg) for kg in arrays.freezer_kg_a_week[:, week]]
        self.drying = float(arrays.dryer_kg_a_week)
        for r, units in enumerate(year.units):
            if arrays.canned[r]:
                self.jars[int(arrays.jar_of[r])] -= units
            standing = max(0.0, units - float(plan.opened[r, week]))
            self.space[int(arrays.place_of[r])] -= standing * float(arrays.space_per_unit[r])

    def left_for(self, r: int) -> float:
        """Give how many units of a preserve can still be put up."""
        arrays, place = self.arrays, int(self.arrays.place_of[r])
        fresh_kg = float(arrays.fresh_kg[r].sum())
        left = [self._by_time(r), self.space[place] / float(arrays.space_per_unit[r])]
        if np.isfinite(self.freezing[place]):
            left.append(self.freezing[place] / float(arrays.prepared_kg[r]))
        if arrays.canned[r]:
            left.append(self.jars[int(arrays.jar_of[r])])
        if arrays.dried[r]:
            left.append(self.drying / fresh_kg)
        return max(0.0, min(left)) + NEARLY

    def _by_time(self, r: int) -> float:
        each, size = (
            max(float(self.arrays.minutes_per_unit[r]), 1e-6),
            self.arrays.units_per_load[r],
        )
        if not size:
            return self.minutes / each
        load = float(self.arrays.minutes_per_load[r])
        begun = self.loads[r] * size - self.made[r]
        minutes = max(0.0, self.minutes - begun * each)
        whole = int((minutes + NEARLY) / (load + size * each))
        part = min(max((minutes - whole * (load + size * each) - load) / each, 0.0), size)
        return min(begun, self.minutes / each) + whole * size + part

    def take(self, r: int, units: float) -> None:
        """Use up what units of a preserve take."""
        arrays, place = self.arrays, int(self.arrays.place_of[r])
        fresh_kg = float(arrays.fresh_kg[r].sum())
        self.made[r] += units
        self.minutes -= units * float(arrays.minutes_per_unit[r])
        if arrays.units_per_load[r]:
            loads = max(0, -int(-(self.made[r] - NEARLY) // arrays.units_per_load[r]))
            self.minutes -= (loads - self.loads[r]) * float(arrays.minutes_per_load[r])
            self.loads[r] = loads
        self.space[place] -= units * float(arrays.space_per_unit[r])
        self.freezing[place] -= units * float(arrays.prepared_kg[r])
        if arrays.canned[r]:
            self.jars[int(arrays.jar_of[r])] -= units
        if arrays.dried[r]:
            self.drying -= units * fresh_kg
