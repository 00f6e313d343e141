"""The table of needs: which test shows each, and where a user meets it."""

import csv
from pathlib import Path

TESTS = Path(__file__).parent
TABLE = TESTS / "needs.csv"


def needs() -> list[dict[str, str]]:
    """Read the table."""
    with TABLE.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def not_shown(passed: set[str]) -> list[str]:
    """List the needs whose test is not among those that passed; for a run of the whole suite."""
    return [
        f"{row['need']}: {row['test']}"
        for row in needs()
        if row["test"] and row["test"] not in passed
    ]
