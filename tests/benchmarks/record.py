"""What twenty years of records cost: reading, writing, the book, the plan, the pages' tables.

``python -m tests.benchmarks.record``. The demo household as it is, but without a record, is
what everything is held against, in the same run.
"""

import tempfile
from datetime import UTC, date, datetime, timedelta
from importlib.resources import files
from pathlib import Path

import numpy as np

from model.case import make_case
from model.intake.folder import read_tables
from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables, TextTable
from model.outlook.eat_first_table import eat_first_table
from model.outlook.product_table import product_table
from model.outlook.review_table import review_table
from model.outlook.task_table import task_table
from model.planning import PlannedSeason, plan_season
from model.season.ledger import ledgers
from model.season.season import Season
from model.store.store import Store
from model.store.versions import Author, Edit
from tests.benchmarks.measuring import SPRING, best_of, say

RECORD = ("harvest_log.csv", "batches.csv", "seals.csv", "taken.csv", "meant.csv", "verdicts.csv")
FIRST_YEAR, LAST_YEAR = 2007, 2025
PICKINGS, BATCHES, TAKEN, COUNTS = 6_000, 4_000, 6_000, 100
MOST = 2.0
NOW = datetime(2027, 3, 15, 9, tzinfo=UTC)


def without_record(tables: SeasonTables) -> SeasonTables:
    """Give a household that has written nothing down but what stands there."""
    return SeasonTables({f: t for f, t in tables.tables.items() if f not in RECORD}, ())


def with_years(tables: SeasonTables, generator: np.random.Generator) -> SeasonTables:
    """Give the household with the records of the years before its own, about twenty in all."""
    first, span = date(FIRST_YEAR, 3, 1), (LAST_YEAR - FIRST_YEAR + 1) * 365 - 10
    preserves = _column(tables, "preserves.csv", "preserve")
    crops = sorted(set(_column(tables, "plantings.csv", "crop")))

    def days(count: int) -> list[date]:
        return [first + timedelta(int(n)) for n in np.sort(generator.integers(0, span, count))]

    batches = [
        (f"b{n}", day, str(generator.choice(preserves)), int(generator.integers(3, 15)))
        for n, day in enumerate(days(BATCHES))
    ]
    counted = [first + timedelta(days=(n + 1) * span // (COUNTS + 1)) for n in range(COUNTS)]
    earlier: dict[str, list[dict[str, object]]] = {
        "seasons.csv": [
            {"season": y, "begins": f"{y}-03-01", "ends": date(y + 1, 3, 1) - timedelta(1)}
            for y in range(FIRST_YEAR, LAST_YEAR + 1)
        ],
        "harvest_log.csv": [
            {"picked_on": day, "crop": generator.choice(crops), "picked_kg": f"{kg:.1f}"}
            for day, kg in zip(days(PICKINGS), generator.uniform(0.2, 8.0, PICKINGS), strict=True)
        ],
        "batches.csv": [
            {"batch": code, "put_up_on": day, "preserve": preserve, "filled": filled}
            for code, day, preserve, filled in batches
        ],
        "seals.csv": [
            {
                "batch": code,
                "checked_on": day + timedelta(1),
                "sealed": filled - int(generator.integers(0, 2)),
            }
            for code, day, _, filled in batches
        ],
        "taken.csv": [
            {"taken_on": day, "preserve": generator.choice(preserves), "jars": 1}
            for day in days(TAKEN)
        ],
        "stock.csv": [
            {
                "counted_on": day,
                "preserve": preserve,
                "jars": 1 + int(generator.integers(2)),
                "put_up_on": day - timedelta(60),
            }
            for day in counted
            for preserve in preserves
        ],
    }
    grown = dict(tables.tables)
    for file, rows in earlier.items():
        own = grown[file]
        cells = [tuple(str(row.get(name, "")) for name in own.headings) for row in rows]
        cells += [row for _, row in own.rows]
        grown[file] = TextTable(own.headings, tuple(enumerate(cells, start=2)))
    return SeasonTables(grown, ())


def _column(tables: SeasonTables, file: str, heading: str) -> list[str]:
    table = tables.tables[file]
    return [cells[table.headings.index(heading)] for _, cells in table.rows]


def read_tables_of_pages(planned: PlannedSeason) -> None:
    """Make the tables that the pages show of a record."""
    years = planned.case.season.garden_seasons
    product_table(planned)
    eat_first_table(planned)
    task_table(planned)
    review_table(planned.case, years[-2].name)


def main() -> None:
    """Measure both households and print the ratios."""
    tables = read_tables(str(files("demo_data") / "alder_lane"))
    long = with_years(tables, np.random.default_rng(1))
    with tempfile.TemporaryDirectory() as folder:
        store = Store(Path(folder) / "households.sqlite", NOW)
        both = [
            store.begin(name, own, Author(name, NOW, "", name))
            for name, own in (("bare", without_record(tables)), ("long", long))
        ]
        opened = best_of(3, lambda: Store(store.path, NOW)).seconds
        copied = best_of(3, lambda: store.back_up(NOW)).seconds
        megabytes = store.path.stat().st_size / 1e6
        say("opening and checking the store", f"{opened:.2f} s", "1 s", reached=opened <= 1.0)
        say("a copy", f"{copied:.2f} s, {megabytes:.1f} MB", "1 s", reached=copied <= 1.0)
        clicks = iter(range(1_000))

        def write(household: int) -> None:
            picked = {"picked_on": "2027-03-14", "crop": "kale", "picked_kg": "2"}
            signed = Author(f"click {next(clicks)}", NOW, "", "picked")
            store.write(household, signed, [Edit("harvest_log.csv", picked)])

        def read(household: int) -> Season:
            return season_from_tables(store.tables(household))

        seasons = [best_of(3, lambda h=h: read(h)) for h in both]
        writes = [best_of(3, lambda h=h: write(h)).seconds for h in both]
    bare, grown = (timed.seconds for timed in seasons)
    say("reading the season", f"{grown:.2f} s ({grown / bare:.0f}x)", "1.5 s", reached=grown <= 1.5)
    say("writing one picking", f"{writes[1]:.2f} s", "0.5 s", reached=writes[1] <= 0.5)
    both_seasons = [timed.value for timed in seasons]
    books = best_of(5, lambda: ledgers(both_seasons[1], SPRING)).seconds
    say("the book of every preserve", f"{books:.2f} s", "0.2 s", reached=books <= 0.2)
    cases = [best_of(3, lambda s=s: make_case(s, SPRING)).seconds for s in both_seasons]
    plans = [best_of(2, lambda s=s: plan_season(s, SPRING, years=1000)) for s in both_seasons]
    pages = [best_of(3, lambda p=p: read_tables_of_pages(p.value)).seconds for p in plans]
    first = [t.seconds + p.seconds + page for t, p, page in zip(seasons, plans, pages, strict=True)]
    for what, (without, with_it) in {
        "the case of a plan": cases,
        "the plan and its thousand years": [plan.seconds for plan in plans],
        "the tables of the record's pages": pages,
        "a page from nothing: read, plan, tables": first,
    }.items():
        ratio = with_it / without
        told = f"{with_it:.2f} s, {ratio:.2f}x"
        say(what, told, f"<= {MOST:g}x", reached=ratio <= MOST)


if __name__ == "__main__":
    main()
