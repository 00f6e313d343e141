"""What a household that follows a plan does in one week, without knowing what is to come.

It eats what is fresh; puts up what was planned, catches up where it fell behind, and goes
ahead only where the garden is ahead; opens jars for what fresh food leaves wanting; throws
away what is past it. Every function works on many years at once, which lie along the last
axis (N).
"""

from dataclasses import dataclass

import numpy as np

from model.plan import Plan
from model.season.arrays import Ints, SeasonArrays, Singles
from model.simulation.kitchen_room import NEARLY, KitchenRoom

# A household that falls behind slows down a little: more would leave jars over at the end.
LEAST_PACE = np.float32(0.9)
NEARLY_PORTIONS = np.float32(1e-2)


@dataclass(frozen=True, eq=False)
class WeekGuide:
    """What a plan says about one week, and what it expected by then.

    Parameters
    ----------
    eaten_kg, on_hand_kg, picked_by_kg : shape (C, 1), eaten fresh, held for the week after,
        and the harvest up to this week's end.
    put_up_by, put_up_in_all, opened, given, shelf_before : shape (R, 1), units.
    met, wanted : shape (F, 1), portions; ``weeks_left`` to the new crop, this one included.
    """

    eaten_kg: Singles
    on_hand_kg: Singles
    picked_by_kg: Singles
    put_up_by: Singles
    put_up_in_all: Singles
    opened: Singles
    given: Singles
    shelf_before: Singles
    met: Singles
    wanted: Singles
    weeks_left: Singles


def week_guides(plan: Plan, arrays: SeasonArrays, cover_until: Ints) -> list[WeekGuide]:
    """Read every week of a plan."""
    shelf_before = np.column_stack([arrays.opening_units, plan.shelf[:, :-1]])
    weeks = np.arange(len(plan.weeks))
    weeks_left = np.maximum(1.0, cover_until[:, None] - weeks)
    whole = plan.put_up.sum(axis=1, keepdims=True)
    by_week = (
        plan.eaten_kg,
        plan.on_hand_kg,
        np.cumsum(plan.harvest_kg, axis=1),
        np.cumsum(plan.put_up, axis=1),
        np.broadcast_to(whole, plan.put_up.shape),
        plan.opened,
        plan.given,
        shelf_before,
        plan.met,
        plan.wanted,
        weeks_left,
    )
    singles = [array.astype(np.float32) for array in by_week]
    return [WeekGuide(*(array[:, week : week + 1] for array in singles)) for week in weeks]


def portions_aimed_at(
    arrays: SeasonArrays, guide: WeekGuide, units: Singles, appetite: Singles, *, as_wanted: bool
) -> Singles:
    """Give the portions of each food the household means to eat; shape (F, N).

    As wanted: what it likes, until it is gone. Else at the plan's pace, and what the shelf
    stands above or below the plan's is spread over the weeks left. Beyond its want it eats,
    to save what would be past it, only while the shelf is no lower than planned.
    """
    if as_wanted:
        return appetite * guide.wanted
    above: Singles = food_portions(arrays) @ (units - guide.shelf_before)
    aimed = guide.met + above / guide.weeks_left
    plenty = np.where(above >= -NEARLY_PORTIONS, guide.met, 0)
    most = np.maximum(guide.wanted, plenty)
    spread: Singles = appetite * np.clip(aimed, np.minimum(LEAST_PACE * guide.met, most), most)
    return spread


def food_portions(arrays: SeasonArrays) -> Singles:
    """Give the matrix that turns units of preserves into portions of foods; shape (F, R)."""
    foods = np.arange(len(arrays.foods))[:, None]
    member = arrays.food_of_preserve[None, :] == foods
    return np.asarray(member * arrays.portions[None, :], dtype=np.float32)


def fresh_portions_a_kg(arrays: SeasonArrays) -> Singles:
    """Give the matrix that turns kilograms eaten fresh into portions of foods; shape (F, C)."""
    foods = np.arange(len(arrays.foods))[:, None]
    member = arrays.food_of_crop[None, :] == foods
    return np.asarray(member * arrays.portions_per_kg[None, :], dtype=np.float32)


def eat_fresh(
    arrays: SeasonArrays, on_hand_kg: Singles, missing: Singles, most_kg: Singles, keep_kg: Singles
) -> Singles:
    """Eat fresh food for portions that are missing, in place; shape (F, N), portions eaten.

    ``most_kg`` and ``keep_kg`` (C, 1) hold each crop to what was planned to be eaten, and to
    be kept for the week after.
    """
    eaten = np.zeros_like(missing)
    for c, f in enumerate(arrays.food_of_crop):
        if f < 0 or not on_hand_kg[c].any():
            continue
        per_kg = np.float32(arrays.portions_per_kg[c])
        take = np.minimum(on_hand_kg[c] - keep_kg[c], (missing[f] - eaten[f]) / per_kg)
        take = np.clip(take, 0, most_kg[c])
        on_hand_kg[c] -= take
        eaten[f] += take * per_kg
    return eaten


def put_up(
    arrays: SeasonArrays, on_hand_kg: Singles, wanted: Singles, room: KitchenRoom
) -> Singles:
    """Put up what is wanted as far as harvest and room go; takes from ``on_hand_kg`` in place.

    ``wanted`` and the answer have shape (R, N), units; canned jars are whole.
    """
    made = np.zeros_like(wanted)
    for r in [int(r) for r in np.flatnonzero(wanted.max(axis=1, initial=0) > NEARLY)]:
        parts = np.flatnonzero(arrays.fresh_kg[r])
        if not on_hand_kg[parts].min(axis=0).any():
            continue
        units = np.minimum(wanted[r], room.left_for(r))
        for c in parts:
            units = np.minimum(units, on_hand_kg[c] / np.float32(arrays.fresh_kg[r, c]))
        if arrays.canned[r]:
            units = np.floor(units + NEARLY)
        for c in parts:
            used = units * np.float32(arrays.fresh_kg[r, c])
            on_hand_kg[c] = np.maximum(on_hand_kg[c] - used, 0)
        room.take(r, units)
        made[r] = units
    return made


def ahead_of_plan(arrays: SeasonArrays, guide: WeekGuide, picked_kg: Singles) -> Singles:
    """Mark the preserves whose main crop has given more than the plan expected; (R, N)."""
    main = arrays.fresh_kg.argmax(axis=1)
    ahead = picked_kg > guide.picked_by_kg * np.float32(1 + 1e-4) + NEARLY
    return np.asarray(ahead[main], dtype=np.float32)


def open_jars(arrays: SeasonArrays, guide: WeekGuide, missing: Singles, ready: Singles) -> Singles:
    """Open units for the portions that fresh food leaves wanting; shape (R, N).

    First the planned ones, fewer of each where less is missing; then others of the same
    food in the shares in which they stand on the shelf, within each one's most a week.
    """
    in_food = food_portions(arrays)
    of = arrays.food_of_preserve
    most = np.minimum(arrays.most_portions_a_week / arrays.portions, 1e9)
    planned = np.minimum(ready, guide.opened)
    less = np.minimum(1, missing / np.maximum(in_food @ planned, NEARLY))
    take = planned * less[of]
    still = np.maximum(missing - in_food @ take, 0)
    left = np.minimum(ready, most[:, None].astype(np.float32)) - take
    np.maximum(left, 0, out=left)
    share = np.minimum(1, still / np.maximum(in_food @ left, NEARLY))
    share[still <= NEARLY] = 0
    opened: Singles = take + left * share[of]
    return opened


def still_good(arrays: SeasonArrays, week: int, sealed: Singles, r: int) -> Singles:
    """Give the most units of a preserve that are not past it, oldest eaten first; shape (N,).

    ``sealed`` has shape (W, R, N), units put up and sealed by week.
    """
    begins = max(0, week - int(arrays.keeps_weeks[r]) + 1)
    age = week - np.arange(begins, week + 1)
    kept = ((1 - arrays.loss_per_week[r]) ** age).astype(np.float32)
    good: Singles = kept @ sealed[begins : week + 1, r] + np.float32(arrays.opening_left[r, week])
    return good
