"""The week's sheet for the door of the refrigerator: one page, with boxes to tick."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import accumulate

import model
from dashboard.paper.sheet import HEADING_MM, LINE_MM, RULED_MM, Sheet
from dashboard.tables import put_up_words
from dashboard.units import in_own, weight
from dashboard.words import (
    about,
    at_clock,
    count,
    day,
    hours,
    local,
    morning_of,
    pieces,
    short_day,
)
from model import PlannedSeason

MOST_LIMITS, MOST_SEALS, LEAST_RULED, MOST_RULED = 10, 6, 3, 12
SHARES = [3.4, 1.8, 4.5, 2.3, 6.0]
LIMIT_SHARES = [5.0, 4.0, 6.0]
SEAL_SHARES = [4.6, 1.6, 7.8]
SEALS_MM = 10 * LINE_MM
UNSEALED = (
    "Unsealed ones go into the refrigerator or freezer by the time beside them, or are processed "
    "again where Write down offers that. After that: throw them away, untasted."
)
# The columns of the form that a whole sheet is typed into later.
WRITTEN_LATER = {"Day": 2.0, "What happened": 3.0, "What": 5.0, "How much": 2.0, "Counted in": 3.0}
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)


@dataclass(frozen=True, slots=True)
class _Row:
    """A line with boxes: its words, and how many things are ticked off, of which noun."""

    words: tuple[str, str, str]
    number: float
    noun: str


def kitchen_sheet(plan: PlannedSeason, moment: datetime) -> bytes:
    """Give the sheet of the present week as PDF, always one page.

    What does not fit is told by its number, the page itself showing it. ``moment`` is the
    household's own time, for the clock times of seals.
    """
    season, today = plan.case.season, plan.case.today
    monday = plan.case.weeks.monday(0)
    sheet = Sheet(season, f"Week of {day(monday)}", f"by the plan of {day(today)}", today)
    _limits(sheet, plan)
    _seals(sheet, plan, moment)
    picks, puts = _picks(plan), _puts(plan)
    room = sheet.room_mm - _kept_free_mm()
    high_picks, high_puts = ([_height(sheet, row) for row in rows] for rows in (picks, puts))
    most_puts = _fitting(high_puts, max(room / 2, room - sum(high_picks)))
    most_picks = _fitting(high_picks, room - sum(high_puts[:most_puts]))
    nothing = "Nothing is ripe this week."
    _tallies(sheet, "Pick, about", picks, most_picks, nothing)
    _tallies(sheet, "Put up", puts, most_puts, "Nothing is to be put up this week.")
    _written_later(sheet)
    return sheet.pdf()


def _kept_free_mm() -> float:
    """Give the height of what stands round the lines with boxes, and below them."""
    return 3 * (HEADING_MM + LINE_MM) + LEAST_RULED * RULED_MM


def _fitting(heights: Sequence[float], room_mm: float) -> int:
    """Give how many rows, from the first on, stand in so much room."""
    return sum(total <= room_mm + 1e-6 for total in accumulate(heights))


def _limits(sheet: Sheet, plan: PlannedSeason) -> None:
    """Write what is free of what the week's work takes, and of hours and freezer in any case."""
    sheet.heading("This week's limits")
    limits = model.week_limit_table(plan)
    loads = int(model.week_table(plan).iloc[0]["loads"])
    used = limits["taken_by_plan"] > 0
    first = used | limits["kind"].isin(("kitchen hours", "freezer"))
    units = plan.case.season.units
    for row in limits[first].head(MOST_LIMITS).itertuples():
        taken = _free(row.taken_by_plan, row.unit, units)
        told = f"the plan takes {taken}" if row.taken_by_plan > 0 else ""
        if row.kind == "kitchen hours":
            told += f", {count(loads, 'canner load')}" if loads else ""
        free = f"{_free(row.free, row.unit, units)} free"
        sheet.cells([local(row.limit), free, told], LIMIT_SHARES)


def _free(number: float, unit: str, units: str) -> str:
    if unit == "h":
        return hours(number * 60)
    if unit in ("jar", "lid"):
        return count(math.floor(number + 1e-6), unit)
    own, word = in_own(number, unit, units)
    return f"{about(own)} {word}"


def _seals(sheet: Sheet, plan: PlannedSeason, moment: datetime) -> None:
    """Write the batches whose seals wait, with the clock times between which they are looked at."""
    season = plan.case.season
    waiting = model.unconfirmed(season, plan.case.today)
    if not waiting:
        return
    sheet.heading("Seals to look at: write how many are sealed")
    sheet.text(UNSEALED)
    rows = []
    for batch in waiting[:MOST_SEALS]:
        times = model.seal_times(batch, season.zone)
        morning = morning_of(times.look_from)
        told = f"on the morning of {short_day(morning)}" if morning else ""
        told = told or f"from {at_clock(times.look_from)}"
        if moment < times.limit:
            told += f"; unsealed ones by {at_clock(times.limit)}"
        else:
            told += "; unsealed ones: throw away, untasted"
        filled = f"____ of {batch.filled:g}"
        rows.append([local(batch.code), filled, told])
    fit = _fitting([sheet.row_mm(row, SEAL_SHARES) for row in rows], SEALS_MM)
    for row in rows[:fit]:
        sheet.cells(row, SEAL_SHARES)
    _more(sheet, len(waiting) - fit)


def _picks(plan: PlannedSeason) -> list[_Row]:
    fresh = model.fresh_table(plan, 0).sort_values("expected_kg", ascending=False, kind="stable")
    units, rows = plan.case.season.units, []
    for row in fresh[fresh["expected_kg"] > 0].itertuples():
        parts = [("eat", row.eaten_kg), ("put up", row.put_up_kg)]
        given = [f"{what} {weight(kg, units)}" for what, kg in parts if kg > 0.05]
        if row.before_kg > 0.05:
            given.append(f"there before: {weight(row.before_kg, units)}")
        told = ", ".join(given)
        own, word = in_own(max(row.high_kg, row.expected_kg), "kg", units)
        expected = weight(row.expected_kg, units)
        rows.append(_Row((local(row.crop), expected, told), own, word))
    return rows


def _puts(plan: PlannedSeason) -> list[_Row]:
    batches, units = model.batch_table(plan), plan.case.season.units
    this = batches[(batches["week"] == plan.case.weeks.monday(0)) & (batches["jars"] > 0)]
    rows = []
    for row in this.sort_values("minutes", ascending=False, kind="stable").itertuples():
        told = hours(row.minutes) + (f", {count(row.loads, 'canner load')}" if row.loads else "")
        own, word = in_own(row.jars, row.unit, units)
        amount = put_up_words(row, units)
        told += f", once cured: {short_day(row.cure_until_low)}" if row.cure_until_low else ""
        noun = word.removeprefix("100 g ")
        rows.append(_Row((local(row.preserve), amount, told), own, noun))
    return rows


def _tallies(sheet: Sheet, head: str, rows: Sequence[_Row], most: int, nothing: str) -> None:
    sheet.heading(head)
    if not rows:
        sheet.line(nothing)
    for row in rows[:most]:
        sheet.tally(*_boxed(sheet, row))
    _more(sheet, len(rows) - most)


def _boxed(sheet: Sheet, row: _Row) -> tuple[list[str], list[float], int]:
    """Give a line's cells, their shares and its number of boxes, which fit beside them."""
    boxes = sheet.most_boxes(SHARES)
    each = next((step for step in STEPS if row.number <= step * boxes), STEPS[-1])
    number = min(boxes, math.ceil(row.number / each))
    return [*row.words, f"box: {pieces(each, row.noun)}"], SHARES, number


def _height(sheet: Sheet, row: _Row) -> float:
    return sheet.row_mm(*_boxed(sheet, row))


def _more(sheet: Sheet, left: int) -> None:
    if left > 0:
        sheet.line(f"and {left} more on the page This week")


def _written_later(sheet: Sheet) -> None:
    """Rule the rest of the page in the columns of the form it is typed into."""
    sheet.heading("Written down: type it in later (Write down, From paper)")
    shares = list(WRITTEN_LATER.values())
    sheet.cells(list(WRITTEN_LATER), shares, bold=True)
    sheet.ruled(shares, min(MOST_RULED, int(sheet.room_mm // RULED_MM)))
