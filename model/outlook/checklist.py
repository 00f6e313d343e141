"""The checklist before a preserving day: what belongs to its products, and what is ticked off."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from model.outlook.day_product import DayProduct
from model.reference.read import source_title, table
from model.season.season import Season


@dataclass(frozen=True, slots=True)
class Point:
    """One point; ``ticked_on`` is the day of a tick that still holds, else None.

    >>> model.checklist(season, [], date(2027, 8, 16))[0].words
    'The current tested recipe lies open: it says what goes in, and how much'
    """

    item: str
    words: str
    ticked_on: date | None
    source: str


def checklist(season: Season, made: Iterable[DayProduct], today: date) -> tuple[Point, ...]:
    """List the points for some products; each tick holds for a day or, for a gauge, a year.

    >>> made, _ = model.day_products(season, [model.Wanted("crushed tomatoes", 7)])
    >>> [point.item for point in model.checklist(season, made, date(2027, 8, 16))]
    ['recipe', 'rack', 'jars', 'lids', 'headspace', 'clock', 'acid', 'children']
    """
    tags = set[str]().union(*(product.tags for product in made), {"always"})
    found = []
    for row in table("checklist"):
        if row["shown_with"] in tags:
            since = today - timedelta(days=int(row["holds_days"]) - 1)
            ticks = [t.day for t in season.record.ticks if t.item == row["item"]]
            held = max((day for day in ticks if since <= day <= today), default=None)
            found.append(Point(row["item"], row["words"], held, source_title(row["source"])))
    return tuple(found)
