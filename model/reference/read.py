"""The reference tables as they stand in the CSV files beside this one."""

import csv
from functools import cache
from importlib.resources import files

Row = dict[str, str]

TABLES = (
    "acid_amounts",
    "age_scale",
    "altitude_bands",
    "blanching",
    "canner_steps",
    "cautions",
    "checklist",
    "containers",
    "crops",
    "curing",
    "dangers",
    "first_foods",
    "first_jars",
    "first_plantings",
    "first_preserves",
    "fresh_per_jar",
    "fresh_per_kept",
    "hand_minutes",
    "incidents",
    "jar_sizes",
    "judgements",
    "keeping",
    "no_tested_process",
    "portions",
    "process_times",
    "products",
    "sources",
    "store_conditions",
    "store_harms",
    "store_loss",
    "words_us_uk",
    "yields",
)


@cache
def table(name: str) -> tuple[Row, ...]:
    """Give the rows of one table as text, in the order of the file.

    Raises KeyError for a table that is not shipped.
    """
    if name not in TABLES:
        raise KeyError(name)
    text = (files("model.reference") / f"{name}.csv").read_text("utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def number(text: str) -> float | None:
    """Give a cell as a number; an empty cell is not known."""
    return float(text) if text else None


def source_title(key: str) -> str:
    """Say who published what, for the keys of a ``source`` cell (joined by ``;``).

    Keys that no source has are left out.
    """
    titles = {row["key"]: row for row in table("sources")}
    return "; ".join(_cite(titles[part]) for part in key.split(";") if part in titles)


def _cite(row: Row) -> str:
    parts = [row["publisher"], row["title"], row["year"]]
    return ", ".join(part for part in parts if part)
