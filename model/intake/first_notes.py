"""The first notes of a household: a dozen answers, and published or usual figures as guesses.

Whatever is guessed says so in its note, and is replaced by the household's own figures.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta

from model.errors import Problem, SeasonProblems
from model.intake.first_answers import GUESS, FirstAnswers
from model.intake.first_garden import garden_year, garden_years, share_of_beds
from model.intake.folder import table_headings
from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables, TextTable
from model.intake.units import outside
from model.reference.lookup import product_crops
from model.reference.read import table
from model.safety.altitude import altitude_ft
from model.season.weeks import YearDay

POT, PICKLE = "boiling-water canner", "pickle"
# Judgement: 10 and 90 of 100 years lie so far from the date that people trust.
FROST_SPREAD = timedelta(days=16)
OWN_UNITS = {
    "metric": {"area": "m2", "volume": "l", "mass": "kg"},
    "US": {"area": "ft2", "volume": "cu_ft", "mass": "lb"},
}
# What a row is called where that is not its first heading.
_CALLED = {"plantings.csv": "crop"}

Row = dict[str, object]


def first_notes(answers: FirstAnswers, today: date) -> SeasonTables:
    """Make the tables of a first season from today on.

    Raises SeasonProblems when an answer cannot be used, ValueError when nothing can be kept or
    is grown, KeyError for units or a country that are not offered. Sources: the reference tables
    ``first_*``, each row with its own.

    >>> first = model.first_notes(answers, date(2027, 3, 1))
    >>> model.season_from_tables(first).household
    'Our garden'
    """
    frost, plantings = garden_year(
        answers.last_spring_frost, answers.first_autumn_frost, today, answers.crops
    )
    methods, jars = _methods(answers), _jars(answers)
    area_m2 = answers.bed_area_m2 / len(plantings)
    rows: dict[str, list[Row]] = {
        "household.csv": [_household(answers)],
        "frosts.csv": [
            _frost("last spring frost", answers.last_spring_frost),
            _frost("first autumn frost", answers.first_autumn_frost),
        ],
        "eaters.csv": list(_eaters(answers)),
        "foods.csv": list(_foods(answers)),
        "beds.csv": [{"bed": "beds", **_own("area", "area", answers.bed_area_m2, answers)}],
        "seasons.csv": list(garden_years(frost, today)),
        "plantings.csv": [
            {**share_of_beds(row, out, area_m2, frost, today), "note": GUESS}
            for row, out in plantings
        ],
        "jars.csv": [_jar(row, answers) for row in {row["jar"]: row for row in jars}.values()],
        "equipment.csv": list(_equipment(answers, jars)) if "boiling water" in methods else [],
        "places.csv": list(_places(answers)),
        "kitchen_hours.csv": [{"hours_a_week": f"{answers.kitchen_hours_a_week:.10g}"}],
    }
    named = {row["size"]: row["jar"] for row in jars}
    first = [row for row in table("first_preserves") if row["method"] in methods]
    made = [_preserve(row, crop, named) for row in first if (crop := _made_of(row, answers))]
    kept = _passing(rows, made) if made else []
    if not kept:
        raise ValueError(
            "nothing can be kept; give a freezer, a cool store, or canner and altitude"
        )
    idle = _only_pickled(kept).intersection(answers.crops)
    if idle:
        # its ground is shared out among the rest
        grown = tuple(crop for crop in answers.crops if crop not in idle)
        return first_notes(replace(answers, crops=grown), today)
    return _tables({**rows, "preserves.csv": kept})


def _only_pickled(kept: Sequence[Row]) -> set[str]:
    """Give the crops that are grown to be pickled, where nothing of the kind can be put up."""
    put_up = {f"{row['food']}" for row in kept}
    pickles = (row for row in table("first_foods") if row["group"] == PICKLE)
    return {
        crop for row in pickles if row["food"] not in put_up for crop in row["crops"].split(";")
    }


def guesses(tables: SeasonTables) -> dict[str, tuple[str, ...]]:
    """Name the rows of each table that are still guesses, by what they are called in it.

    A table without guesses is left out.

    >>> model.guesses(model.first_notes(answers, date(2027, 3, 1)))["eaters.csv"]
    ('adult 1', 'adult 2')
    >>> model.guesses(notes)
    {}
    """
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


def _foods(answers: FirstAnswers) -> Iterator[Row]:
    """Give the foods of which something is grown."""
    for row in table("first_foods"):
        grown = [crop for crop in row["crops"].split(";") if crop in answers.crops]
        if grown:
            yield _food({**row, "crops": ";".join(grown)})


def _made_of(row: dict[str, str], answers: FirstAnswers) -> str:
    """Give the crop of a preserve, or another that is grown and that its recipe names too."""
    every = row["crop"], *(product_crops(row["product"]) if row["product"] else ())
    return next((crop for crop in every if crop in answers.crops), "")


def _food(row: dict[str, str]) -> Row:
    """Give a food; what people buy of it in a week becomes portions."""
    portion_g = next(float(p["portion_g"]) for p in table("portions") if p["group"] == row["group"])
    named = ("food", "group", "most_a_week", "liking", "crops")
    return {
        **{name: row[name] for name in named},
        "portions_a_week": f"{float(row['g_a_week']) / portion_g:.1f}",
        "note": GUESS,
    }


def _jars(answers: FirstAnswers) -> list[dict[str, str]]:
    return [row for row in table("first_jars") if row["country"] == answers.country]


def _jar(row: dict[str, str], answers: FirstAnswers) -> Row:
    people = answers.adults + len(answers.children_ages)
    owned = int(row["per_person"]) * people if row["per_person"] else ""
    return {
        "jar": row["jar"],
        row["heading"]: row["volume"],
        "owned": owned,
        "lids": owned,
        "note": GUESS,
    }


def _equipment(answers: FirstAnswers, jars: Sequence[dict[str, str]]) -> Iterator[Row]:
    loads = {row["jar"]: row["jars_per_load"] for row in jars if row["jars_per_load"]}
    for kind in dict.fromkeys((answers.canner, POT)):
        for jar, load in loads.items():
            yield {
                "equipment": kind.partition(",")[0],
                "kind": kind,
                "jar": jar,
                "jars_per_load": load,
                "note": GUESS,
            }


def _places(answers: FirstAnswers) -> Iterator[Row]:
    if answers.shelf_m2:
        area = _own("shelf_area", "area", answers.shelf_m2, answers)
        yield {"place": "shelf", "kind": "shelf", **area, "tiers": 1}
    if answers.freezer_l:
        volume = _own("volume", "volume", answers.freezer_l * 1000, answers)
        yield {"place": "freezer", "kind": "freezer", **volume}
    if answers.root_store_kg:
        holds = _own("holds", "mass", answers.root_store_kg, answers)
        yield {"place": "store", "kind": "root store", **holds}


def _own(heading: str, measure: str, quantity: float, answers: FirstAnswers) -> Row:
    """Give a quantity of the unit used inside in the household's own, so that faults are too."""
    unit = OWN_UNITS[answers.units][measure]
    return {f"{heading}_{unit}": f"{outside(measure, unit, quantity):.10g}"}


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


def _preserve(row: dict[str, str], crop: str, jars: dict[str, str]) -> Row:
    named = ("preserve", "food", "method", "product", "style", "pack", "share_percent")
    return {
        **{name: row[name] for name in named},
        "crop": crop,
        "jar": jars[row["jar"]] if row["jar"] else "",
        "note": GUESS,
    }


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
