"""Every rule of a plan, re-checked from the nouns alone: no array or row of the optimiser.

Used by the law tests; it takes a season, a day and a plan, and lists what is broken.
"""

import math
from datetime import date, timedelta

import numpy as np

from model.case import Case
from model.plan import Plan
from model.season.unseen_seals import unconfirmed
from model.season.weeks import monday_of

CLOSE = 1e-6


def broken_rules(case: Case, plan: Plan) -> list[str]:
    """List every rule that a plan breaks, in words."""
    return [
        *_kilograms(case, plan),
        *_jars(case, plan),
        *_kitchen(case, plan),
        *_places(case, plan),
        *_jar_pool(case, plan),
        *_needs(case, plan),
    ]


def _kilograms(case: Case, plan: Plan) -> list[str]:
    faults = []
    names = [crop.name for crop in case.season.crops]
    for c, crop in enumerate(names):
        span, earlier = int(case.arrays.hold_weeks[c]), case.before_kg[c].tolist()
        # the newest of what was picked before is of this very week
        held = sum(earlier[-span:])
        for week in range(len(plan.weeks)):
            used = sum(
                part.kg * plan.put_up[r, week]
                for r, preserve in enumerate(case.season.preserves)
                for part in preserve.ingredients
                if part.crop == crop
            )
            had = held + plan.harvest_kg[c, week]
            gone = plan.eaten_kg[c, week] + used + plan.spare_kg[c, week]
            if abs(had - gone - plan.on_hand_kg[c, week]) > CLOSE * max(1.0, had):
                faults.append(f"{crop}: kilograms appear or vanish in week {week}")
            held = plan.on_hand_kg[c, week]
            harvest = plan.harvest_kg[c].tolist()
            picked = [*earlier[:-1], earlier[-1] + harvest[0], *harvest[1 : week + 1]]
            late = 0.0 if week else float(case.arrays.good_next_week_kg[c])
            good = sum(picked[len(picked) - span + 1 :]) if span > 1 else late
            if held > good + CLOSE * max(1.0, good):
                faults.append(f"{crop}: held longer than it holds in week {week}")
    return faults


def _jars(case: Case, plan: Plan) -> list[str]:
    faults = []
    seals = 1 - case.seals.share
    standing = {p.name: 0.0 for p in case.season.preserves}
    for name, _, units in _standing(case):
        standing[name] += units
    for r, preserve in enumerate(case.season.preserves):
        units = standing[preserve.name]
        made = [0.0] * len(plan.weeks)
        for week in range(len(plan.weeks)):
            made[week] = plan.put_up[r, week] * (seals if preserve.canned else 1.0)
            units = units * (1 - preserve.loss_per_week) + made[week]
            units -= plan.opened[r, week] + plan.past[r, week] + plan.given[r, week]
            if abs(units - plan.shelf[r, week]) > CLOSE * max(1.0, units):
                faults.append(f"{preserve.name}: units appear or vanish in week {week}")
            units = plan.shelf[r, week]
            waiting = sum(made[max(0, week - preserve.ready_after_weeks + 1) : week + 1])
            covered = week < case.demand.cover_until[case.arrays.food_of_preserve[r]]
            if preserve.ready_after_weeks and covered and units < waiting - CLOSE:
                faults.append(f"{preserve.name}: eaten before it is ready in week {week}")
        faults += _past_eaten(case, plan, r)
        enough = math.inf if preserve.target is None else preserve.target
        if sum(made) >= enough + 1 or (enough == 0 and sum(made) > CLOSE):
            faults.append(f"{preserve.name}: {sum(made):.1f} sealed, {enough} wanted")
        whole = plan.put_up[r] if preserve.canned else np.zeros(1)
        if np.abs(whole - np.round(whole)).max() > CLOSE:
            faults.append(f"{preserve.name}: part of a jar is filled")
    return faults


def _standing(case: Case) -> list[tuple[str, date, float]]:
    """List what stands there, and what should prove sealed of the jars of this year."""
    waiting = unconfirmed(case.season, case.today)
    return [
        *((one.preserve, one.put_up, one.units) for one in case.stock),
        *(
            (batch.preserve, batch.put_up, batch.filled * (1 - case.seals.share))
            for batch in waiting
            if case.forecast.year.begins <= batch.put_up
        ),
    ]


def _past_eaten(case: Case, plan: Plan, r: int) -> list[str]:
    """Follow every batch of a preserve, oldest first: what is past it must not stand there."""
    preserve = case.season.preserves[r]
    seals = 1 - case.seals.share if preserve.canned else 1.0
    first = case.weeks.first
    batches = sorted(
        [(monday_of(put_up) - first).days // 7, units]
        for name, put_up, units in _standing(case)
        if name == preserve.name
    )
    covered = int(case.demand.cover_until[case.arrays.food_of_preserve[r]])
    promised = [gift for gift in case.season.gifts if gift.preserve == preserve.name]
    for week in range(covered):
        for batch in batches:
            batch[1] *= 1 - preserve.loss_per_week
        batches.append([week, plan.put_up[r, week] * seals])
        taken = plan.opened[r, week] + plan.past[r, week] + plan.given[r, week]
        for batch in batches:
            used = min(batch[1], taken)
            batch[1], taken = batch[1] - used, taken - used
        stale = sum(units for made, units in batches if week - made >= preserve.keeps_weeks)
        if stale > CLOSE * 10:
            return [f"{preserve.name}: {stale:.3f} past keeping stand there in week {week}"]
        due = sum(gift.units for gift in promised if case.weeks.index(gift.day) == week)
        if plan.given[r, week] > due + CLOSE:
            return [f"{preserve.name}: more given than promised in week {week}"]
    return []


def _kitchen(case: Case, plan: Plan) -> list[str]:
    faults = []
    dryers = sum(d.fresh_kg_per_load * d.loads_per_week for d in case.season.dryers)
    for week in range(len(plan.weeks)):
        minutes, dried = 0.0, 0.0
        for r, preserve in enumerate(case.season.preserves):
            units, loads = plan.put_up[r, week], plan.loads[r, week]
            minutes += units * preserve.minutes_per_unit + loads * preserve.minutes_per_load
            if preserve.units_per_load and units > loads * preserve.units_per_load + CLOSE:
                faults.append(f"{preserve.name}: more jars than its loads hold in week {week}")
            size = preserve.units_per_load or 0
            if loads and units + CLOSE < size * (loads - 1) + size // 2:
                faults.append(f"{preserve.name}: {loads:g} loads for {units:g} jars in week {week}")
            if preserve.method == "dry":
                dried += units * sum(part.kg for part in preserve.ingredients)
        if minutes > _free_minutes(case, week) + 1e-3:
            faults.append(f"week {week} takes {minutes:.1f} of {_free_minutes(case, week):.1f} min")
        if dried > dryers + CLOSE:
            faults.append(f"week {week} dries {dried:.2f} kg")
    return faults


def _free_minutes(case: Case, week: int) -> float:
    minutes = 0.0
    for offset in range(7):
        day = case.weeks.monday(week) + timedelta(days=offset)
        hours = 0.0
        for stretch in case.season.kitchen_hours:
            if stretch.begins is None:
                hours = stretch.hours_a_week
        for stretch in case.season.kitchen_hours:
            if stretch.begins and stretch.ends and stretch.begins <= day <= stretch.ends:
                hours = stretch.hours_a_week
        minutes += hours * 60 / 7
    return minutes


def _places(case: Case, plan: Plan) -> list[str]:
    faults = []
    season = case.season
    for place in season.places:
        rows = [r for r, p in enumerate(season.preserves) if p.place == place.name]
        for week in range(len(plan.weeks)):
            filled = sum(plan.shelf[r, week] * season.preserves[r].space_per_unit for r in rows)
            if filled > place.capacity * (1 + CLOSE) + CLOSE:
                faults.append(f"{place.name} is over full in week {week}")
            if place.kind == "freezer":
                fresh = sum(
                    plan.put_up[r, week] * part.kg * season.crop(part.crop).edible_share
                    for r in rows
                    for part in season.preserves[r].ingredients
                )
                most = place.volume_l * season.settings.freezer_load_g_per_l_day * 7 / 1000
                if fresh > most + CLOSE:
                    faults.append(f"{place.name} freezes {fresh:.2f} kg in week {week}")
    return faults


def _jar_pool(case: Case, plan: Plan) -> list[str]:
    faults = []
    season = case.season
    for jar in season.jars:
        rows = [r for r, p in enumerate(season.preserves) if p.jar == jar.name and p.canned]
        if jar.lids is not None and sum(plan.put_up[r].sum() for r in rows) > jar.lids + CLOSE:
            faults.append(f"{jar.name}: more lids than there are")
        if jar.owned is None:
            continue
        gone = 0.0
        before = sum(case.arrays.opening_units[r] for r in rows)
        for week in range(len(plan.weeks)):
            full = before + sum(plan.put_up[r, week] for r in rows) + gone
            makes = any(plan.put_up[r, week] > 0 for r in rows)
            if makes and full > jar.owned + 1e-4:
                faults.append(f"{jar.name}: {full:.1f} full of {jar.owned} in week {week}")
            gone += sum(plan.given[r, week] for r in rows)
            before = sum(plan.shelf[r, week] for r in rows)
    return faults


def _needs(case: Case, plan: Plan) -> list[str]:
    faults = []
    for f, food in enumerate(case.season.foods):
        for week in range(len(plan.weeks)):
            opened = sum(
                plan.opened[r, week] * p.portions
                for r, p in enumerate(case.season.preserves)
                if p.food == food.name
            )
            if abs(plan.met[f, week] - plan.fresh[f, week] - opened) > 1e-4:
                faults.append(f"{food.name}: portions appear or vanish in week {week}")
            eaten = sum(
                plan.eaten_kg[c, week] * case.arrays.portions_per_kg[c]
                for c, crop in enumerate(case.season.crops)
                if case.season.food_of_crop(crop.name) == food
            )
            if abs(plan.fresh[f, week] - eaten) > 1e-4:
                faults.append(f"{food.name}: fresh portions are not what was eaten in {week}")
            if plan.met[f, week] > case.demand.most[f, week] + 1e-4:
                faults.append(f"{food.name}: more than can be eaten in week {week}")
    for choice in case.forecast.choices:
        shared = sum(plan.amounts[b] for b in choice.members)
        if not choice.least - len(choice.members) <= shared <= choice.most + CLOSE:
            faults.append(f"{shared:.1f} is taken of a choice of {choice.least} to {choice.most}")
    beds = {bed.name: bed.area_m2 for bed in case.season.beds}
    for week in range(len(plan.weeks)):
        taken = dict.fromkeys(beds, 0.0)
        for b, planting in enumerate(case.forecast.plantings):
            area = plan.amounts[b] * planting.area_m2_per_unit
            taken[planting.bed] += area * case.forecast.occupies[b, week]
        faults += [
            f"{bed} is over full in week {week}"
            for bed, area in taken.items()
            if area > beds[bed] * 1.001 + CLOSE
        ]
    return faults
