"""The working behind a planting: how much of it, and what it should give."""

import math

import numpy as np

from model.outlook.arithmetic import (
    CLOSES,
    LESS,
    OPENS,
    OVER,
    PLUS,
    POWER,
    TIMES,
    Pen,
    about,
    enough,
)
from model.outlook.own_plantings import OwnPlanting, own_planting
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    THE_PLAN,
    Source,
    Working,
    WorkingLine,
    line,
    of_reference,
)
from model.planning import PlannedSeason
from model.season.garden import Planting

Lines = tuple[WorkingLine, ...]
# Less of a planting than this is nothing still to be picked.
LEAST_KG = 0.05
LOG = Source(FROM_NOTES, "harvest_log.csv")


def planting_workings(planned: PlannedSeason, b: int) -> tuple[Working, ...]:
    """Give the workings of a planting: what one unit gives, how many, and what that comes to.

    ``b`` is the place of the planting in the plan; raises IndexError beyond the last.

    >>> [working.what for working in model.workings.planting_workings(planned, 0)][:2]
    ['tomato, south bed: what it should give', 'tomato, south bed: how much of it']
    """
    own = planned.case.forecast.own[b]
    learned = (own_yield_working(planned, b),) if own.seasons else ()
    return (_given(planned, b), _how_many(planned, b), *learned)


def published_yield(planting: Planting) -> Source | None:
    """Say where the published yield of a planting is from."""
    return of_reference(
        "yields", crop=planting.crop, form=planting.form.lower(), per=planting.per
    ) or of_reference("yields", crop=planting.crop, form=planting.form, per=planting.per)


def _given(planned: PlannedSeason, b: int) -> Working:
    """Say what a planting should give: its published yield, moved, less what is usually lost."""
    case = planned.case
    forecast, planting = case.forecast, case.forecast.plantings[b]
    own, amount = forecast.own[b], float(planned.plan.amounts[b])
    told = own_planting(case.season.units, planting.per)
    left = case.season.settings.near_total_loss_left
    survival = 1 - own.chance_lost * (1 - left)
    one = planting.kg_per_unit * told.kg / told.each
    whole = float(forecast.kg_per_unit[b].sum())
    to_come = whole / (planting.kg_per_unit * own.factor * survival)
    expected = whole * amount * told.kg

    def write(pen: Pen) -> tuple[Lines, bool]:
        here = pen.sum(
            *(one, f"{told.weight} a {told.one}", TIMES, own.factor, "in this garden"),
            unit=f"{told.weight} a {told.one}",
        )
        ordinary = pen.sum(
            *(here.result, TIMES, OPENS, 1.0, LESS, own.chance_lost, "chance of near-total loss"),
            *(TIMES, 1 - left, "lost then", CLOSES),
            unit=f"{told.weight} a {told.one}",
        )
        picked = pen.sum(
            *(ordinary.result, TIMES, to_come, "still to be picked after today and before frost"),
            unit=f"{told.weight} a {told.one}",
        )
        gives = pen.sum(
            *(picked.result, TIMES, amount * told.each, told.amount(amount * told.each)),
            unit=told.weight,
        )
        lines = (
            line(here, published_yield(planting), *((LOG,) if own.seasons else ())),
            line(
                ordinary,
                of_reference("crops", status="", crop=planting.crop),
                Source(FROM_SETTING, "near_total_loss_left"),
            ),
            line(picked, Source(FROM_NOTES, "plantings.csv", planting.crop)),
            line(gives, THE_PLAN),
        )
        return lines, about(gives.result) == about(expected)

    what = f"{planting.crop}, {planting.bed}: what it should give"
    return Working(what, f"{about(expected)} {told.weight}", enough(write))


def _how_many(planned: PlannedSeason, b: int) -> Working:
    """Say what becomes of the crop's harvest, and how many of the planting give its part."""
    case, plan = planned.case, planned.plan
    arrays, planting = case.arrays, case.forecast.plantings[b]
    told, c = own_planting(case.season.units, planting.per), int(case.forecast.crop_of[b])
    amount = float(plan.amounts[b]) * told.each
    each_kg = float(case.forecast.kg_per_unit[b].sum()) * told.kg / told.each
    harvest = float(plan.harvest_kg[c].sum()) * told.kg
    eaten = float(plan.eaten_kg[c].sum()) * told.kg
    put_up = float((arrays.fresh_kg[:, c] @ plan.put_up).sum()) * told.kg
    mine = each_kg * amount
    bounds = _bounds(planned, b, told)
    number = about(amount) if planting.per != "plant" else f"{math.ceil(amount - 1e-9)}"
    shown = f"{number} {told.amount(amount)}"

    def write(pen: Pen) -> tuple[Lines, bool]:
        fresh, kept, grown = (pen.rounded(kg) for kg in (eaten, put_up, harvest))
        rest = pen.rounded(grown - fresh - kept)
        more = (PLUS, rest, "to spare") if rest >= 0 else (LESS, -rest, "in hand from before")
        use = pen.sum(
            *(fresh, f"{told.weight} eaten fresh", PLUS, kept, "put up", *more),
            unit=f"{told.weight} picked, from all its plantings",
        )
        lines, grown_here = [line(use, THE_PLAN)], use.result
        others = pen.rounded(use.result - pen.rounded(mine))
        if others > 0:
            part = pen.sum(
                *(use.result, LESS, others, "from the others"),
                unit=f"{told.weight} from this one",
            )
            lines, grown_here = [*lines, line(part, THE_PLAN)], part.result
        many = pen.sum(
            *(grown_here, told.weight, OVER, each_kg, f"{told.weight} a {told.one}"),
            unit=told.amount,
        )
        lines += [line(many, THE_PLAN), bounds, *_margin(planned)]
        return tuple(lines), about(many.result) == about(amount)

    what = f"{planting.crop}, {planting.bed}: how much of it"
    if mine <= LEAST_KG:
        return Working(what, shown, (bounds,))
    return Working(what, shown, enough(write))


def _bounds(planned: PlannedSeason, b: int, told: OwnPlanting) -> WorkingLine:
    """Say between what the household lets the plan choose."""
    forecast, planting = planned.case.forecast, planned.case.forecast.plantings[b]
    pen, notes = Pen(1), Source(FROM_NOTES, "plantings.csv", planting.crop)
    least, most = (pen.rounded(float(x[b]) * told.each) for x in (forecast.least, forecast.most))
    if most == least:
        return line(f"{pen.written(least)} {told.amount(least)} in the notes, and fixed", notes)
    span = f"from {pen.written(least)} to {pen.written(most)} {told.amount(most)} may be grown"
    return line(span, notes)


def _margin(planned: PlannedSeason) -> Lines:
    """Say with which margin for bad years the amounts were chosen, where they were."""
    choice = planned.planting
    if not choice.tried:
        return ()
    share = Pen(2).sum(
        *(1.0, OVER, OPENS, 1.0, PLUS, choice.margin, "margin", CLOSES),
        unit="of what each crop should give was planned with",
    )
    return (
        line(
            share, Source(FROM_NOTES, "household.csv", f"plan for {planned.case.season.plan_for}")
        ),
    )


def own_yield_working(planned: PlannedSeason, b: int) -> Working:
    """Say how own seasons and the published yield are weighed into one."""
    case = planned.case
    planting, own = case.forecast.plantings[b], case.forecast.own[b]
    told = own_planting(case.season.units, planting.per)
    crop = case.season.crop(planting.crop)
    garden = float(np.log(case.season.settings.garden_spread_factor) ** 2)
    scatter = float(np.log(1 + crop.season_cv**2))
    share = own.seasons / (own.seasons + scatter / garden)
    ratio = float(np.exp(np.log(own.factor) / share))
    usual = planting.kg_per_unit * told.kg / told.each
    unit = f"{told.weight} a {told.one}"

    def write(pen: Pen) -> tuple[Lines, bool]:
        worth = pen.sum(
            *(scatter, "scatter of a season", OVER, garden, "spread between gardens"),
            unit="seasons, which the published figure counts for",
        )
        weight = pen.sum(
            *(float(own.seasons), _seasons(own.seasons), OVER, OPENS),
            *(float(own.seasons), PLUS, worth.result, CLOSES),
            unit="is the weight of the own ones",
        )
        factor = pen.sum(
            *(ratio, POWER, weight.result),
            unit="times the published figure; ^ is to the power of",
        )
        gives = pen.sum(usual, unit, TIMES, factor.result, unit=unit)
        lines = (
            line(
                worth,
                of_reference("crops", status="", crop=planting.crop),
                Source(FROM_SETTING, "garden_spread_factor"),
            ),
            line(weight, LOG),
            line(f"own seasons gave {pen.written(ratio)} times the published figure", LOG),
            line(factor),
            line(gives, published_yield(planting)),
        )
        return lines, about(gives.result) == about(usual * own.factor)

    shown = f"{about(usual * own.factor)} {unit}"
    return Working(f"{planting.crop}: own and published yield", shown, enough(write))


def _seasons(number: int) -> str:
    return "own season" if number == 1 else "own seasons"
