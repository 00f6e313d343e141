"""What was written, in words: the tables of the notes by their names, an entry as one line."""

import re
from collections.abc import Mapping
from datetime import date, datetime

from dashboard.words import at_clock, day
from model import GUESS

RECORD = {
    "Picked": "harvest_log.csv",
    "Put up": "batches.csv",
    "Seals": "seals.csv",
    "Taken": "taken.csv",
    "Counted": "stock.csv",
    "Something gone": "setbacks.csv",
    "Containers": "containers.csv",
    "Verdicts": "verdicts.csv",
    "Checklist": "checklist.csv",
}
WORDS = {file: words for words, file in RECORD.items()} | {
    "away.csv": "Away from home",
    "beds.csv": "Beds",
    "eaters.csv": "Who eats",
    "equipment.csv": "Canners, dryers and other equipment",
    "foods.csv": "What is eaten, and how much",
    "frosts.csv": "Frosts",
    "gifts.csv": "Given away",
    "guests.csv": "Guests",
    "habits.csv": "Habits of eating",
    "household.csv": "The household",
    "ingredients.csv": "What goes into a preserve",
    "jars.csv": "Jars and lids",
    "kitchen_hours.csv": "Kitchen hours",
    "meant.csv": "What the plan meant",
    "places.csv": "Places to store",
    "plantings.csv": "What grows",
    "preserves.csv": "What is put up",
    "seasons.csv": "Garden seasons",
    "settings.csv": "Judgements",
    "weather.csv": "Weather",
}
# What a household has and wants, apart from what happens; judgements and weather have their own
# pages.
NOTES = {
    words: file
    for file, words in sorted(WORDS.items(), key=lambda both: both[1])
    if file not in {*RECORD.values(), "settings.csv", "weather.csv", "meant.csv"}
}
WEIGHTS = ("kg", "lb", "oz")
_FILE = re.compile(r"\b[a-z_]+\.csv\b")


def in_sheets(words: str) -> str:
    """Name the tables of the notes as the pages do, a file alone or within a sentence."""
    return _FILE.sub(lambda found: WORDS.get(found[0], found[0]), words)


def entry_told(cells: Mapping[str, str]) -> str:
    """Tell an entry in a line, its days as the household writes them."""
    return " · ".join(_cell_told(name, cell) for name, cell in cells.items() if cell)


def changed_cells(before: Mapping[str, str], after: Mapping[str, str]) -> dict[str, str]:
    """Give the cells that are another now; of one that was emptied, that it is."""
    return {
        name: after.get(name) or f"no {name.replace('_', ' ')}"
        for name in dict.fromkeys([*before, *after])
        if after.get(name, "") != before.get(name, "")
    }


def is_guess(cells: Mapping[str, str]) -> bool:
    """Say whether nobody in the household has looked at a row yet."""
    return cells.get("note") == GUESS


def day_in(cell: str) -> date | None:
    """Give the day that a cell holds, None where it holds something else."""
    try:
        return date.fromisoformat(cell)
    except ValueError:
        return None


def moment_in(cell: str) -> datetime | None:
    """Give the moment that a cell holds, None where it holds something else."""
    try:
        return datetime.fromisoformat(cell) if "T" in cell else None
    except ValueError:
        return None


def _cell_told(name: str, cell: str) -> str:
    """Tell a cell with the unit of its heading, a bare number with what it counts."""
    found, unit = day_in(cell), name.rpartition("_")[2]
    if found is not None:
        return day(found)
    moment = moment_in(cell)
    if moment is not None:
        return at_clock(moment)
    if unit in WEIGHTS:
        return f"{cell} {unit}"
    if cell.replace(".", "", 1).isdigit():
        return f"{name.replace('_', ' ')} {cell}"
    return cell
