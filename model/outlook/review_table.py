"""The year's review: what was meant, filled, sealed, and what became of it."""

from collections.abc import Sequence
from datetime import date, timedelta

import pandas as pd

from model.case import Case
from model.season.kitchen import Preserve
from model.season.ledger import Ledger
from model.season.record import LOST, Batch, Meant
from model.season.season import Season
from model.season.unseen_seals import unconfirmed

NONE_LEFT = 1e-9
COLUMNS = (
    *("preserve", "food", "unit", "meant_units", "filled_units", "unconfirmed_units"),
    *("opening_units", "sealed_units", "eaten_units", "given_units", "lost_units"),
    *("unknown_units", "left_units", "ran_out", "lost_out", "verdict"),
)


def review_table(case: Case, year: str) -> pd.DataFrame:
    """One row a preserve over a garden year, up to today: where every jar came from and went.

    ``left_units`` = ``opening_units`` + ``sealed_units`` - ``eaten_units`` - ``given_units``
    - ``lost_units`` + ``unknown_units``. ``sealed_units`` are those that came onto the shelf,
    ``filled_units`` counts no jar twice that was processed again. ``meant_units`` and
    ``verdict`` are blank where nobody said. ``ran_out`` is the day on which the last of it was
    used up before its crop was picked again, ``lost_out`` that on which the last was lost. A
    preserve of which nothing was written down has no row. Raises KeyError for a year that is not
    in the notes.

    >>> review = model.review_table(planned.case, "2026").set_index("preserve")
    >>> print(*review)
    food unit meant_units filled_units unconfirmed_units opening_units sealed_units eaten_units
    given_units lost_units unknown_units left_units ran_out lost_out verdict
    >>> balance = ["opening_units", "sealed_units", "eaten_units", "left_units"]
    >>> review.loc["crushed tomatoes", balance].tolist()
    [0.0, 21.0, 2.0, 19.0]
    """
    season = case.season
    begins, ends = reviewed(season, year, case.today)
    open_batches = [b for b in unconfirmed(season, ends) if begins <= b.put_up]
    rows = []
    for name, book in case.books.items():
        own, moved = season.preserve(name), book.between(begins, ends)
        put_up = [
            batch
            for batch in season.record.batches
            if batch.preserve == name and begins <= batch.put_up <= ends
        ]
        if not (put_up or moved.opening or any(begins <= e.day <= ends for e in book.entries)):
            continue
        none_from = gone_from(book, begins, ends)
        lost = was_lost(book, none_from)
        meant = last_meant(season, name, begins, ends)
        rows.append(
            {
                "preserve": name,
                "food": own.food,
                "unit": own.unit,
                "meant_units": meant.units if meant else None,
                "filled_units": sum(batch.filled for batch in put_up if not batch.again_of),
                "unconfirmed_units": sum(b.filled for b in open_batches if b.preserve == name),
                "opening_units": moved.opening,
                "sealed_units": moved.came,
                "eaten_units": moved.eaten,
                "given_units": moved.given,
                "lost_units": moved.lost,
                "unknown_units": moved.unknown,
                "left_units": moved.left,
                "ran_out": None if lost or _reached(season, own, put_up, none_from) else none_from,
                "lost_out": none_from if lost else None,
                "verdict": verdict_on(season, year, name),
            }
        )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _reached(
    season: Season, own: Preserve, put_up: Sequence[Batch], none_from: date | None
) -> bool:
    """Say whether the last of it was used up once its crop was picked again, none yet put up."""
    if none_from is None or any(batch.put_up <= none_from for batch in put_up):
        return False
    year = next(y for y in season.garden_seasons if y.begins <= none_from <= y.ends)
    return any(
        picking.crop in own.crops and year.begins <= picking.day <= none_from
        for picking in season.pickings
    )


def reviewed(season: Season, year: str, today: date) -> tuple[date, date]:
    """Give the first and the last day of a garden year that a review on a day looks at."""
    garden = season.garden_season(year)
    return garden.begins, min(garden.ends, today)


def last_meant(season: Season, preserve: str, begins: date, ends: date) -> Meant | None:
    """Give what the plan kept last in a stretch of days wanted of a preserve, and its day."""
    kept = [m for m in season.record.meant if m.preserve == preserve and begins <= m.day <= ends]
    return max(kept, key=lambda meant: meant.day, default=None)


def verdict_on(season: Season, year: str, preserve: str) -> str:
    """Give the household's verdict on a preserve in a garden year; blank where there is none."""
    said = (v for v in season.record.verdicts if (v.season, v.preserve) == (year, preserve))
    return next((verdict.verdict for verdict in said), "")


def gone_from(book: Ledger, begins: date, ends: date) -> date | None:
    """Give the day from which none was left to the end; None where some is, or never was any."""
    stood = [run for run in shelf_runs(book, begins, ends) if run[2] > NONE_LEFT]
    if not stood or stood[-1][1] >= ends:
        return None
    return stood[-1][1] + timedelta(days=1)


def was_lost(book: Ledger, none_from: date | None) -> bool:
    """Say whether it was a loss that took the last of it on a day."""
    before, lost = 0.0, False
    for entry in book.entries:
        if entry.day == none_from and before > NONE_LEFT >= entry.left:
            lost = entry.kind == LOST
        before = entry.left
    return lost


def shelf_runs(book: Ledger, begins: date, ends: date) -> list[tuple[date, date, float]]:
    """Give runs of days with what stood there on the evening of each: first, last, units."""
    runs = [(begins, book.between(begins, begins).left)]
    for entry in book.entries:
        if begins <= entry.day <= ends:
            if entry.day == runs[-1][0]:
                runs.pop()
            runs.append((entry.day, entry.left))
    after = [first for first, _ in runs[1:]] + [ends + timedelta(days=1)]
    return [
        (first, next_first - timedelta(days=1), units)
        for (first, units), next_first in zip(runs, after, strict=True)
    ]
