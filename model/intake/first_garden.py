"""The first garden year of a household: what can still be started, from whatever day it is."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta

from model.reference.read import table
from model.season.weeks import YearDay

# Judgement: before any sowing, indoors too; and long enough for the quick crops to be picked.
BEGINS_BEFORE_FROST = timedelta(weeks=12)
LEAST_GROWING = timedelta(weeks=12)
YEAR = timedelta(days=364)
LEAST_PLANTINGS = 4
MOST_PERCENT = 1000

Row = dict[str, object]


def garden_year(
    spring: YearDay, autumn: YearDay, today: date, crops: Collection[str]
) -> tuple[date, Sequence[tuple[dict[str, str], date]]]:
    """Give the last spring frost, and what can still come into the bed and when.

    Of the ``crops``; where this year's is nearly over, it is next year's. Raises ValueError where
    none of them is one that can be begun with.
    """
    grown = [row for row in table("first_plantings") if row["crop"] in crops]
    if not grown:
        raise ValueError("nothing is grown; choose one crop at least")
    frost = spring.on_or_before(today)
    while True:
        dated = [(row, _out_on(row, frost, autumn, today)) for row in grown]
        still = [(row, out) for row, out in dated if out is not None]
        if len(still) >= min(LEAST_PLANTINGS, len(grown)):
            return frost, still
        frost = spring.on_or_after(frost + timedelta(days=1))


def _out_on(row: dict[str, str], frost: date, autumn: YearDay, today: date) -> date | None:
    """Give the day a planting comes into its bed, from today on; None where it is too late."""
    usual = latest = frost + timedelta(weeks=float(row["weeks_from_last_frost"]))
    if row["last_weeks_before_first_frost"]:
        weeks = timedelta(weeks=float(row["last_weeks_before_first_frost"]))
        latest = max(usual, autumn.on_or_after(frost) - weeks)
    # what comes into the bed still later is picked in the next garden year
    next_begins = frost - BEGINS_BEFORE_FROST + YEAR
    return max(usual, today) if today <= min(latest, next_begins - LEAST_GROWING) else None


def garden_years(frost: date, today: date) -> Iterator[Row]:
    """Give the garden year, and the stretch before it where the notes begin earlier."""
    begins = frost - BEGINS_BEFORE_FROST
    ends, before = begins + YEAR, begins - timedelta(days=1)
    if today < before:
        yield _season(f"before {frost.year}", today, before)
    else:
        begins = min(begins, today)
    yield _season(f"{frost.year}", begins, ends)


def _season(name: str, begins: date, ends: date) -> Row:
    return {"season": name, "begins": f"{begins}", "ends": f"{ends}", "normal": "yes"}


def share_of_beds(row: dict[str, str], out: date, area_m2: float, frost: date, today: date) -> Row:
    """Give a planting; a seedling that should have been sown by now is one to be bought."""
    sown = out - timedelta(weeks=float(row["weeks_indoors"]))
    return {
        "season": f"{frost.year}",
        "crop": row["crop"],
        "bed": "beds",
        "sown": f"{sown}" if row["start"] == "sown" or today <= sown < out else "",
        "planted_out": f"{out}" if row["start"] == "planted_out" else "",
        "area_m2": f"{area_m2 * 0.98:.4g}",
        "least_percent": 0,
        "most_percent": MOST_PERCENT,
    }
