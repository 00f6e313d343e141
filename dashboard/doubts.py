"""Asks whether an entry is right that is far from what a household like this one could do."""

from datetime import date, timedelta
from math import ceil

import model
from dashboard.units import weight
from dashboard.words import count, day, listed
from model import Edit, Ledger, Preserve, Season

LEAST_KG = 0.05
# The day of what was written down, by its table.
DAYS = {
    "batches.csv": "put_up_on",
    "harvest_log.csv": "picked_on",
    "seals.csv": "checked_on",
    "stock.csv": "counted_on",
    "taken.csv": "taken_on",
}
# Judgement: what is lifted at once may well give more than expected, what is picked again and
# again gives no whole season in one day.
MOST_AT_ONCE, MOST_OF_MANY = 2.0, 1.0
# Judgement: weather moves a picking by weeks, a slip of the finger by months.
FAR_WEEKS = 6
# Judgement: nobody gets through more loads of a canner in one day.
MOST_LOADS = 8


def picking_doubt(season: Season, crop: str, kg: float, when: date) -> str:
    """Ask whether a picking is right that is larger than a season or months off; else blank.

    Larger: than all that an ordinary season gives, or twice that of what is lifted at once.
    """
    usual = model.usual_picking(season, crop, when)
    if usual is None or usual.whole_kg <= LEAST_KG:
        return ""
    times, doubts = kg / usual.whole_kg, []
    if times > (MOST_OF_MANY if usual.repeated else MOST_AT_ONCE):
        much = f"about {times:,.0f} times" if times >= MOST_AT_ONCE else "more than"
        whole = weight(usual.whole_kg, season.units)
        doubts.append(f"{much} what the whole season should give ({whole})")
    early, late = (usual.first - when).days // 7, (when - usual.last).days // 7
    if early >= FAR_WEEKS:
        doubts.append(f"{early} weeks before its usual first picking ({day(usual.first)})")
    elif late >= FAR_WEEKS:
        doubts.append(f"{late} weeks after its usual last picking ({day(usual.last)})")
    return _asked(doubts)


def edit_doubt(season: Season, edit: Edit, today: date) -> str:
    """Ask whether what is written of an event is right; what cannot be read is not.

    That is of a day to come, of a picking or a batch that is too large, or of more taken than
    there was.
    """
    cells = edit.cells or {}
    try:
        when = date.fromisoformat(cells[DAYS[edit.file]])
        if when > today:
            return _asked([f"of {day(when)}, a day still to come"])
        if edit.file == "harvest_log.csv":
            return picking_doubt(season, cells["crop"], float(cells["picked_kg"]), when)
        if edit.file == "batches.csv":
            own = season.preserve(cells["preserve"])
            return batch_doubt(season, own, float(cells["filled"]), when)
        if edit.file == "taken.csv":
            return _gone_doubt(season, cells["preserve"], float(cells["jars"]), when)
    except (KeyError, ValueError):
        return ""
    return ""


def _gone_doubt(season: Season, name: str, number: float, when: date) -> str:
    """Ask of what was taken on a day; what else was taken on it is not known apart from it."""
    name = season.preserve(name).name
    there = model.ledgers(season, when - timedelta(days=1))[name].units
    there += model.ledgers(season, when)[name].between(when, when).came
    return _asked([_beyond(there, name)]) if number > there else ""


def batch_doubt(
    season: Season, preserve: Preserve, filled: float, when: date, *, new: bool = False
) -> str:
    """Ask whether a batch is right that has more jars than are owned, or took a day's loads.

    Or more of a crop than all that an ordinary season gives; a ``new`` one, more jars than stand
    empty by the book. Blank where it may well be right.
    """
    doubts, jar = [], season.jar(preserve.jar) if preserve.jar else None
    if jar is not None and jar.owned is not None:
        empty = jar.owned - (_full(season, jar.name, when) if new else 0)
        if filled > jar.owned:
            doubts.append(f"more than the {jar.owned:,} jars ({jar.name}) you own")
        elif filled > empty:
            doubts.append(f"more than the {max(0, empty):,} {jar.name}s that by the book are empty")
    loads = ceil(filled / preserve.units_per_load) if preserve.units_per_load else 0
    if loads > MOST_LOADS:
        doubts.append(f"{count(loads, 'canner load')} in one day")
    for part in preserve.ingredients:
        kg, usual = filled * part.kg, model.usual_picking(season, part.crop, when)
        if usual is None or usual.whole_kg <= LEAST_KG:
            continue
        if kg > usual.whole_kg * (MOST_OF_MANY if usual.repeated else MOST_AT_ONCE):
            whole = weight(usual.whole_kg, season.units)
            told = f"{weight(kg, season.units)} of {part.crop}"
            doubts.append(f"{told}, where the whole season should give {whole}")
    return _asked(doubts)


def _full(season: Season, jar: str, when: date) -> int:
    books = model.ledgers(season, when)
    return ceil(sum(books[own.name].units for own in season.preserves if own.jar == jar))


def again_doubt(season: Season, code: str | None, filled: float, today: date) -> str:
    """Ask whether more jars are processed again than did not seal of a batch; else blank."""
    first = next((batch for batch in season.record.batches if batch.code == code), None)
    if first is None:
        return ""
    look = season.record.newest_checks(today).get(first.code)
    failed = first.filled - (look.sealed if look else 0)
    if filled <= failed:
        return ""
    return _asked([f"more than the {failed:g} of {code} that did not seal"])


def taken_doubt(book: Ledger, number: float) -> str:
    """Ask whether more was taken than stands there by the book; else blank."""
    return _asked([_beyond(book.units, book.preserve)]) if number > book.units else ""


def _beyond(there: float, name: str) -> str:
    return f"more than the {there:g} of {name} that by the book were there"


def _asked(doubts: list[str]) -> str:
    return f"That is {listed(doubts)}: is it right?" if doubts else ""
