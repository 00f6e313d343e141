"""The first notes of a household: a dozen answers, and published or usual figures as guesses.

Whatever is guessed says so in its note, and is replaced by the household's own figures.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from model.errors import Problem, SeasonProblems
from model.intake.folder import table_headings
from model.intake.gate import season_from_tables
from model.intake.kitchen_columns import EQUIPMENT
from model.intake.tables import SeasonTables, TextTable
from model.reference.read import table
from model.safety.altitude import altitude_ft
from model.season.weeks import YearDay

GUESS = "a guess: replace it by your own"
CANNERS = tuple(kind for kind in EQUIPMENT if kind != "dryer")
# Judgement: 10 and 90 of 100 years lie so far from the date that people trust.
FROST_SPREAD = timedelta(days=16)
BEGINS_BEFORE_FROST = timedelta(weeks=12)
LEAST_PLANTINGS = 4
MOST_PERCENT = 1000
JARS = (("large", 850, 30, 100, 7), ("small", 435, 40, 64, 9))

# What a row is called where that is not its first heading.
_CALLED = {"plantings.csv": "crop"}

Row = dict[str, object]


@dataclass(frozen=True, slots=True)
class FirstAnswers:
    """What a household says first; ``altitude`` blank means that nothing is canned.

    ``canner`` is blank or one of ``CANNERS``; ``units`` is metric or US.
    """

    household: str
    adults: int
    children_ages: tuple[int, ...]
    bed_area_m2: float
    altitude: str
    units: str
    last_spring_frost: YearDay
    first_autumn_frost: YearDay
    canner: str
    freezer_l: float
    shelf_m2: float
    root_store_kg: float
    kitchen_hours_a_week: float
    time_zone: str


def first_notes(answers: FirstAnswers, today: date) -> SeasonTables:
    """Make the tables of a first season from today on.

    Raises SeasonProblems when an answer cannot be used, ValueError when nothing can be kept.
    """
    begins, frost, plantings = _garden_year(answers, today)
    methods = _methods(answers)
    rows: dict[str, list[Row]] = {
        "household.csv": [_household(answers)],
        "frosts.csv": [
            _frost("last spring frost", answers.last_spring_frost),
            _frost("first autumn frost", answers.first_autumn_frost),
        ],
        "eaters.csv": list(_eaters(answers)),
        "foods.csv": [_guess(row) for row in table("first_foods")],
        "beds.csv": [{"bed": "beds", "area_m2": f"{answers.bed_area_m2:g}"}],
        "seasons.csv": [_season(begins, frost)],
        "plantings.csv": [_share(row, len(plantings), answers, frost) for row in plantings],
        "jars.csv": [_jar(*jar) for jar in JARS] + [{"jar": "pack", "volume_ml": 750}],
        "equipment.csv": [
            {"equipment": "canner", "kind": answers.canner, "jar": jar, "jars_per_load": load}
            for jar, _, _, _, load in JARS
            if "boiling water" in methods
        ],
        "places.csv": list(_places(answers)),
        "kitchen_hours.csv": [{"hours_a_week": f"{answers.kitchen_hours_a_week:g}"}],
    }
    made = [_preserve(row) for row in table("first_preserves") if row["method"] in methods]
    kept = _passing(rows, made) if made else []
    if not kept:
        raise ValueError(
            "nothing can be kept; give a freezer, a cool store, or canner and altitude"
        )
    return _tables({**rows, "preserves.csv": kept})


def guesses(tables: SeasonTables) -> dict[str, tuple[str, ...]]:
    """Name the rows of each table that are still guesses, by what they are called in it."""
    names = {
        file: tuple(
            cells[own.headings.index(_CALLED.get(file, own.headings[0]))]
            for _, cells in own.rows
            if GUESS in cells
        )
        for file, own in tables.tables.items()
    }
    return {file: called for file, called in names.items() if called}


def _household(answers: FirstAnswers) -> Row:
    return {
        "household": answers.household,
        **_altitude(answers.altitude.strip()),
        "units": answers.units,
        "time_zone": answers.time_zone,
    }


def _altitude(text: str) -> Row:
    """Give the altitude as it was typed; raises SeasonProblems for one that has to be guessed.

    It is read whole first: a part of ``1 200 m`` would lower every process time.
    """
    if not text:
        return {"altitude_m": ""}
    try:
        altitude_ft(text)
    except ValueError as error:
        found, _, wanted = str(error).partition("; ")
        problem = Problem("household.csv", 2, f"altitude {found}", wanted)
        raise SeasonProblems([problem]) from None
    number, unit = re.split(r"(?<=[0-9])\s*(?![0-9.,])", text, maxsplit=1)
    return {"altitude_m" if unit.lower().startswith("m") else "altitude_ft": number}


def _frost(name: str, median: YearDay) -> Row:
    day = median.in_year(2001)
    early, late = day - FROST_SPREAD, day + FROST_SPREAD
    return {
        "frost": name,
        "early_month_day": f"{early:%m-%d}",
        "median_month_day": f"{day:%m-%d}",
        "late_month_day": f"{late:%m-%d}",
        "note": GUESS,
    }


def _eaters(answers: FirstAnswers) -> Iterator[Row]:
    for number in range(answers.adults):
        yield {"eater": f"adult {number + 1}", "age_years": 40, "note": GUESS}
    for number, age in enumerate(answers.children_ages):
        yield {"eater": f"child {number + 1}", "age_years": age}


def _garden_year(answers: FirstAnswers, today: date) -> tuple[date, date, Sequence[dict[str, str]]]:
    """Give the first day, the last spring frost and the plantings that can still be started.

    Where this year's are nearly over, it is next year's, and the garden year begins today.
    """
    frost = answers.last_spring_frost.on_or_after(today - BEGINS_BEFORE_FROST)
    while True:
        still = [row for row in table("first_plantings") if _starts(row, frost)[0] >= today]
        if len(still) >= LEAST_PLANTINGS:
            return min(today, frost - BEGINS_BEFORE_FROST), frost, still
        frost = answers.last_spring_frost.on_or_after(frost + timedelta(days=1))


def _starts(row: dict[str, str], frost: date) -> tuple[date, date]:
    """Give the days on which a planting is sown and comes into its bed."""
    out = frost + timedelta(weeks=float(row["weeks_from_last_frost"]))
    return out - timedelta(weeks=float(row["weeks_indoors"])), out


def _season(begins: date, frost: date) -> Row:
    return {
        "season": f"{frost.year}",
        "begins": f"{begins}",
        "ends": f"{frost - BEGINS_BEFORE_FROST + timedelta(days=364)}",
        "normal": "yes",
    }


def _share(row: dict[str, str], count: int, answers: FirstAnswers, frost: date) -> Row:
    sown, out = _starts(row, frost)
    return {
        "season": f"{frost.year}",
        "crop": row["crop"],
        "bed": "beds",
        "sown": f"{sown}" if row["start"] == "sown" or sown < out else "",
        "planted_out": f"{out}" if row["start"] == "planted_out" else "",
        "area_m2": f"{answers.bed_area_m2 / count * 0.98:.4g}",
        "least_percent": 0,
        "most_percent": MOST_PERCENT,
        "note": GUESS,
    }


def _jar(jar: str, ml: int, owned: int, cm2: int, _: int) -> Row:
    return {
        "jar": jar,
        "volume_ml": ml,
        "owned": owned,
        "lids": owned,
        "footprint_cm2": cm2,
        "note": GUESS,
    }


def _places(answers: FirstAnswers) -> Iterator[Row]:
    if answers.shelf_m2 > 0:
        yield {"place": "shelf", "kind": "shelf", "shelf_area_m2": answers.shelf_m2, "tiers": 1}
    if answers.freezer_l > 0:
        yield {"place": "freezer", "kind": "freezer", "volume_l": answers.freezer_l}
    if answers.root_store_kg > 0:
        yield {"place": "store", "kind": "root store", "holds_kg": answers.root_store_kg}


def _methods(answers: FirstAnswers) -> set[str]:
    """Give the methods for which a household has what they take."""
    canning = answers.shelf_m2 > 0 and bool(answers.canner) and bool(answers.altitude)
    has = {
        "freeze": answers.freezer_l > 0,
        "root store": answers.root_store_kg > 0,
        "boiling water": canning,
        "pressure": canning and answers.canner.startswith("pressure"),
    }
    return {method for method, there in has.items() if there}


def _preserve(row: dict[str, str]) -> Row:
    named = ("preserve", "food", "crop", "method", "product", "style", "pack", "jar")
    return {
        **{name: row[name] for name in named},
        "share_percent": row["share_percent"],
        "note": GUESS,
    }


def _guess(row: dict[str, str]) -> Row:
    return {**{k: v for k, v in row.items() if k not in ("status", "source")}, "note": GUESS}


def _passing(rows: dict[str, list[Row]], preserves: list[Row]) -> list[Row]:
    """Give the preserves that the gate takes: whatever is refused here is left out.

    Raises SeasonProblems for faults of the other tables.
    """
    refused: set[int] = set()
    try:
        season_from_tables(_tables({**rows, "preserves.csv": preserves}))
    except SeasonProblems as error:
        others = [p for p in error.problems if p.file != "preserves.csv"]
        if others:
            raise SeasonProblems(others) from error
        refused = {problem.row for problem in error.problems}
    return [row for number, row in enumerate(preserves, start=2) if number not in refused]


def _tables(rows: dict[str, list[Row]]) -> SeasonTables:
    tables = {}
    for file, own in rows.items():
        named = tuple(dict.fromkeys(name for row in own for name in row))
        headings = named or tuple(table_headings(file))
        cells = (tuple(f"{row.get(name, '')}" for name in headings) for row in own)
        tables[file] = TextTable(headings, tuple(enumerate(cells, start=2)))
    return SeasonTables(tables, ())
