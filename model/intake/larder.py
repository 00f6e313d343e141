"""What stands on the shelf already, what is promised away, and whether it can be so."""

from collections import defaultdict
from datetime import date

from model.intake.desk import Desk
from model.intake.rows import TypedRow
from model.season.kitchen import Counted, Gift, Jar, Place, Preserve
from model.season.record import EATEN, Taken


def counts(desk: Desk, last: date | None) -> tuple[Counted, ...]:
    """Give every stock-take row; none is after the ``last`` day of all seasons."""
    found = []
    for row in desk.of("stock.csv"):
        name = desk.known(row, "preserve", "preserves.csv", "preserve")
        day, put_up = row.day("counted_on"), row.day("put_up_on")
        units = row.number("jars")
        if day is None:
            continue
        if put_up is None and units:
            desk.add(row, "put_up_on is empty", "fill it in, about; only a count of 0 needs none")
        elif put_up is not None and put_up > day:
            desk.add(row, f"put up on {put_up}, after it was counted on {day}", "mend a date")
        elif desk.in_time(row, "counted_on", last) and name is not None:
            found.append(Counted(day, name, units, put_up or day))
    return tuple(found)


def gifts(desk: Desk) -> tuple[Gift, ...]:
    """Give the jars promised away."""
    found = []
    for row in desk.of("gifts.csv"):
        name = desk.known(row, "preserve", "preserves.csv", "preserve")
        day = row.day("given_on")
        if name and day:
            found.append(Gift(day, name, row.number("jars")))
    return tuple(found)


def check_room(
    desk: Desk,
    counted: tuple[Counted, ...],
    preserves: tuple[Preserve, ...],
    jars: tuple[Jar, ...],
    places: tuple[Place, ...],
    taken: tuple[Taken, ...],
) -> None:
    """Check that no stock-take counts more full jars than are owned, or than a place holds.

    How many are owned is written without a day: what was lost or given away since a count may
    have been owned then.
    """
    by_name = {preserve.name: preserve for preserve in preserves}
    full: dict[tuple[date, str], float] = defaultdict(float)
    filled: dict[tuple[date, str], float] = defaultdict(float)
    for count in counted:
        preserve = by_name.get(count.preserve)
        if preserve is None:
            continue
        filled[count.day, preserve.place] += count.units * preserve.space_per_unit
        if preserve.canned and preserve.jar:
            full[count.day, preserve.jar] += count.units
    rows = {row.day("counted_on"): row for row in reversed(desk.of("stock.csv"))}
    owned = {jar.name: jar.owned for jar in jars}
    left = [
        (one.day, by_name[one.preserve].jar, one.units)
        for one in taken
        if one.why != EATEN and one.preserve in by_name
    ]
    for (day, jar), units in full.items():
        most = owned[jar]
        since = sum(gone for when, of, gone in left if of == jar and when >= day)
        if most is not None and units - since > most:
            _stock_fault(desk, rows[day], f"{units:g} full {jar}, of {most} owned", "jars.csv")
    capacity = {place.name: place.capacity for place in places}
    for (day, place), space in filled.items():
        if space > capacity[place] * 1.0001:
            share = space / capacity[place] if capacity[place] else float("inf")
            _stock_fault(desk, rows[day], f"{place} would be {share:.0%} full", "places.csv")


def _stock_fault(desk: Desk, row: TypedRow, found: str, file: str) -> None:
    found = f"the count of {row.day('counted_on')} gives {found}"
    desk.add(row, found, f"mend the count, or {file}")
