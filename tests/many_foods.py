"""A household with as many foods as preserves: what a page with 35 products has to stand.

Made from an invented household's notes: every preserve becomes a food of its own, which shares
the portions of the food it was of; the food's crops stay with the first of them.
"""

import csv
import io
from collections.abc import Iterable, Mapping

from model.intake.folder import text_tables
from model.intake.gate import season_from_tables
from model.season.season import Season
from tests.conftest import DEMOS


def many_foods(texts: Mapping[str, str]) -> dict[str, str]:
    """Give the texts of a folder by file name, with one food a preserve."""
    foods = {row["food"]: row for row in rows_of(texts["foods.csv"])}
    preserves = rows_of(texts["preserves.csv"])
    members: dict[str, list[str]] = {}
    for row in preserves:
        members.setdefault(row["food"], []).append(row["preserve"])
    split = [
        {
            **foods[food],
            "food": name,
            "portions_a_week": f"{float(foods[food]['portions_a_week']) / len(names):.3f}",
            "crops": foods[food]["crops"] if name == names[0] else "",
        }
        for food, names in members.items()
        for name in names
    ]
    own = [{**row, "food": row["preserve"]} for row in preserves]
    return {**texts, "foods.csv": text_of(split), "preserves.csv": text_of(own)}


def demo_texts(household: str) -> dict[str, str]:
    """Read the tables of an invented household as texts, by file name."""
    return {path.name: path.read_text() for path in (DEMOS / household).glob("*.csv")}


def season_of(texts: Mapping[str, str]) -> Season:
    """Read the season of such texts."""
    return season_from_tables(text_tables((name, text.encode()) for name, text in texts.items()))


def rows_of(text: str) -> list[dict[str, str]]:
    """Read a table's rows."""
    return list(csv.DictReader(io.StringIO(text)))


def text_of(rows: Iterable[dict[str, str]]) -> str:
    """Write a table."""
    listed = list(rows)
    written = io.StringIO()
    writer = csv.DictWriter(written, list(listed[0]))
    writer.writeheader()
    writer.writerows(listed)
    return written.getvalue()
