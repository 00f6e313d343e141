"""What stands on the shelf already, what is promised away, and whether it can be so."""

from datetime import date

from model.intake.desk import Desk
from model.season.kitchen import Counted, Gift, Jar, Place, Preserve


def counts(desk: Desk) -> tuple[Counted, ...]:
    """Give every stock-take row."""
    found = []
    for row in desk.of("stock.csv"):
        name = desk.known(row, "preserve", "preserves.csv", "preserve")
        day, put_up = row.day("counted_on"), row.day("put_up_on")
        if name is None or day is None or put_up is None:
            continue
        if put_up > day:
            desk.add(row, f"put up on {put_up}, after it was counted on {day}", "mend a date")
        else:
            found.append(Counted(day, name, row.number("jars"), put_up))
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
) -> None:
    """Check that no stock-take counts more full jars than are owned, or than a place holds."""
    by_name = {preserve.name: preserve for preserve in preserves}
    for day in sorted({count.day for count in counted}):
        standing = [
            (by_name[c.preserve], c.units)
            for c in counted
            if c.day == day and c.preserve in by_name
        ]
        for jar in jars:
            full = sum(units for p, units in standing if p.jar == jar.name and p.canned)
            if jar.owned is not None and full > jar.owned:
                _stock_fault(
                    desk, day, f"{full:g} full {jar.name}, of {jar.owned} owned", "jars.csv"
                )
        for place in places:
            filled = sum(units * p.space_per_unit for p, units in standing if p.place == place.name)
            if filled > place.capacity * 1.0001:
                share = filled / place.capacity if place.capacity else float("inf")
                _stock_fault(desk, day, f"{place.name} would be {share:.0%} full", "places.csv")


def _stock_fault(desk: Desk, day: date, found: str, file: str) -> None:
    row = next(row for row in desk.of("stock.csv") if row.day("counted_on") == day)
    desk.add(row, f"the count of {day} gives {found}", f"mend the count, or {file}")
