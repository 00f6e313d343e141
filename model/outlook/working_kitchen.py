"""The working behind a week's kitchen hours and loads, and how full a freezer gets."""

from dataclasses import dataclass
from datetime import date

import numpy as np

from model.outlook.arithmetic import OVER, PLUS, TIMES, Pen, about, enough
from model.outlook.limits import kitchen_minutes
from model.outlook.own_units import in_own
from model.outlook.working import (
    FROM_NOTES,
    FROM_SETTING,
    PUBLISHED,
    THE_PLAN,
    Source,
    Working,
    WorkingLine,
    line,
)
from model.outlook.working_counts import noun
from model.planning import PlannedSeason
from model.season.kitchen import Place, Preserve

Lines = tuple[WorkingLine, ...]
# So many preserves have a line of their own; the others are told together.
OWN_LINES = 3
FREEZER, STORE, SHELF = "freezer", "root store", "shelf"


def week_workings(planned: PlannedSeason, monday: date) -> tuple[Working, ...]:
    """Give the working of the kitchen hours of a week; none where nothing is put up.

    ``monday`` begins a week of the plan.

    >>> (working,) = model.workings.week_workings(planned, date(2027, 8, 16))
    >>> working.what
    'kitchen hours of the week'
    """
    week = planned.case.weeks.index(monday)
    minutes = float(kitchen_minutes(planned.case, planned.plan)[week])
    return (_hours(planned, week, minutes),) if minutes >= 0.5 else ()


def _hours(planned: PlannedSeason, week: int, minutes: float) -> Working:
    arrays, plan = planned.case.arrays, planned.plan
    by_preserve = (
        arrays.minutes_per_load * plan.loads[:, week]
        + arrays.minutes_per_unit * plan.put_up[:, week]
    )
    order = [int(r) for r in np.argsort(-by_preserve, kind="stable") if by_preserve[r] > 0]
    own, others = order[:OWN_LINES], order[OWN_LINES:]

    def write(pen: Pen) -> tuple[Lines, bool]:
        lines, terms = list[WorkingLine](), list[float | str]()
        for r in own:
            preserve = planned.case.season.preserves[r]
            loads, units = float(plan.loads[r, week]), float(plan.put_up[r, week])
            each, unit = in_own(1.0, preserve.unit, planned.case.season.units)
            hand = (units * each, noun(unit), TIMES, preserve.minutes_per_unit / each)
            work = pen.sum(
                *(
                    (loads, _loads(loads), TIMES, preserve.minutes_per_load, "min", PLUS)
                    if loads
                    else ()
                ),
                *(*hand, "min by hand"),
                unit="min",
            )
            lines.append(line(work, THE_PLAN, *_times(preserve), of=preserve.name))
            terms += [PLUS, work.result] if terms else [work.result]
        if others:
            rest = float(by_preserve[others].sum())
            terms += [PLUS, rest, f"for {'another' if len(others) == 1 else 'the others'}"]
        whole = pen.sum(*terms, unit="min")
        hours = pen.sum(whole.result, "min", OVER, 60.0, "min an hour", unit="hours")
        free = pen.written(float(arrays.kitchen_minutes[week]) / 60)
        told = f", of {free} free hours"
        lines += [line(whole, THE_PLAN)] if len(order) > 1 else []
        lines.append(line(hours, Source(FROM_NOTES, "kitchen_hours.csv"), ends=told))
        return tuple(lines), about(hours.result) == about(minutes / 60)

    loads = int(plan.loads[:, week].sum())
    told = f"{about(minutes / 60)} hours" + (f", {loads} {_loads(loads)}" if loads else "")
    return Working("kitchen hours of the week", told, enough(write))


def _loads(number: float) -> str:
    return "load" if number == 1 else "loads"


def _times(preserve: Preserve) -> tuple[Source, ...]:
    """Say where the minutes are from: own or usual times of hands and canner, judged."""
    usual = (Source(FROM_NOTES, "preserves.csv", preserve.name), Source(PUBLISHED, "practice"))
    return (*usual, *((Source(FROM_SETTING, "fill_minutes_per_load"),) if preserve.canned else ()))


@dataclass(frozen=True, slots=True)
class _Fill:
    """What a place holds in its fullest week, and how that is counted."""

    place: Place
    p: int
    week: int
    scale: float
    unit: str


def fullest_workings(planned: PlannedSeason, place: str) -> tuple[Working, ...]:
    """Give the working of how full a place gets; none where nothing ever stands there.

    Raises ValueError for a place that is not in the season.

    >>> (working,) = model.workings.fullest_workings(planned, "cellar")
    >>> working.what
    'cellar: the fullest week'
    """
    case = planned.case
    p = case.arrays.places.index(place)
    rows = np.flatnonzero(case.arrays.place_of == p)
    used = case.arrays.space_per_unit[rows] @ planned.plan.shelf[rows]
    if used.max(initial=0.0) <= 1e-6:
        return ()
    own = case.season.places[p]
    inside, scale = {SHELF: ("m2", 1e-4), STORE: ("kg", 1.0)}.get(own.kind, ("l", 1.0))
    each, unit = in_own(1.0, inside, case.season.units)
    return (_fullest(planned, _Fill(own, p, int(used.argmax()), scale * each, unit)),)


def _fullest(planned: PlannedSeason, fill: _Fill) -> Working:
    arrays, shelf = planned.case.arrays, planned.plan.shelf[:, fill.week]
    room = np.where(arrays.place_of == fill.p, arrays.space_per_unit * shelf, 0.0) * fill.scale
    order = [int(r) for r in np.argsort(-room, kind="stable") if room[r] > 1e-9]
    own, others = order[:OWN_LINES], order[OWN_LINES:]
    units, monday = planned.case.season.units, planned.case.weeks.monday(fill.week)

    def write(pen: Pen) -> tuple[Lines, bool]:
        lines, terms = list[WorkingLine](), list[float | str]()
        for r in own:
            preserve = planned.case.season.preserves[r]
            each, unit = in_own(1.0, preserve.unit, units)
            takes = Pen(pen.digits + 1).sum(
                *(float(shelf[r]) * each, noun(unit), TIMES),
                *(float(arrays.space_per_unit[r]) * fill.scale / each, f"{fill.unit} each"),
                unit=fill.unit,
            )
            lines.append(line(takes, THE_PLAN, of=preserve.name))
            terms += [PLUS, takes.result] if terms else [takes.result]
        if others:
            terms += [PLUS, float(room[others].sum()), "of all else"]
        whole = pen.sum(*terms, "in the week of", monday, unit=fill.unit)
        lines += [line(whole, THE_PLAN), _capacity(pen, planned, fill)]
        return tuple(lines), about(whole.result) == about(float(room.sum()))

    shown = f"{about(float(room.sum()))} {fill.unit}"
    return Working(f"{fill.place.name}: the fullest week", shown, enough(write))


def _capacity(pen: Pen, planned: PlannedSeason, fill: _Fill) -> WorkingLine:
    """Say what there is room for: of a freezer only so much can be filled."""
    notes = Source(FROM_NOTES, "places.csv", fill.place.name)
    if fill.place.kind == FREEZER:
        share = planned.case.season.settings.freezer_fill_share
        room = pen.sum(
            *(fill.place.volume_l * fill.scale, fill.unit, TIMES, share, "that can be filled"),
            unit=f"{fill.unit} of room",
        )
        return line(room, notes, Source(FROM_SETTING, "freezer_fill_share"))
    room_there = pen.written(fill.place.capacity * fill.scale)
    return line(f"there is room for {room_there} {fill.unit}", notes)
