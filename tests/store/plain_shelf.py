"""The stock of one preserve by plain sums over the rows, day by day from the last count."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta

Row = Mapping[str, str]
Change = tuple[date, float]


def day_of(row: Row, heading: str) -> date:
    return date.fromisoformat(row[heading])


def sealed_changes(batch: Row, looks: Iterable[Row], counts: Iterable[Row]) -> Iterator[Change]:
    """Give by how much each look changed the jars of a batch that are known to be sealed."""
    made, before = day_of(batch, "put_up_on"), 0.0
    own = [look for look in looks if look["batch"] == batch["batch"]]
    for n, look in enumerate(sorted(own, key=lambda look: day_of(look, "checked_on"))):
        day, sealed = day_of(look, "checked_on"), float(look["sealed"])
        # a count that was late enough, or names the batch, held these jars already
        held = [
            day_of(count, "counted_on") >= made + timedelta(days=2)
            or (float(count["jars"]) > 0 and count.get("put_up_on") == batch["put_up_on"])
            for count in counts
            if made <= day_of(count, "counted_on") < day
        ]
        if n or not any(held):
            yield day, sealed - before
        before = sealed


def plain_stock(rows: Iterable[tuple[str, Row]], preserve: str, *, canned: bool, to: date) -> float:
    """Add up what the rows of ``(file, cells)`` say stands there on the evening of a day."""
    tables: dict[str, list[Row]] = defaultdict(list)
    for file, cells in rows:
        if cells.get("preserve", preserve) == preserve:
            tables[file].append(cells)
    counts = [row for row in tables["stock.csv"] if day_of(row, "counted_on") <= to]
    counted = max((day_of(row, "counted_on") for row in counts), default=date.min)
    stock = sum(float(row["jars"]) for row in counts if day_of(row, "counted_on") == counted)
    changes = [(day_of(row, "taken_on"), -float(row["jars"])) for row in tables["taken.csv"]]
    for batch in tables["batches.csv"]:
        if canned:
            changes += sealed_changes(batch, tables["seals.csv"], counts)
        else:
            changes.append((day_of(batch, "put_up_on"), float(batch["filled"])))
    by_day: dict[date, float] = defaultdict(float)
    for day, jars in changes:
        by_day[day] += jars
    for day in sorted(day for day in by_day if counted < day <= to):
        stock = max(0.0, stock + by_day[day])
    return stock
