"""The acid that goes into every jar of what is borderline: tomatoes and figs."""

from dataclasses import dataclass
from fractions import Fraction

from model.reference.lookup import products
from model.reference.read import Row, table
from model.season.kitchen import ProcessTime


@dataclass(frozen=True, slots=True)
class Acid:
    """The acid of a jar: bottled lemon juice, or (where it is tested) citric acid."""

    lemon_juice_tbsp: int
    lemon_juice_ml: int
    citric_acid_tsp: Fraction | None


def acid_in_a_jar(process: ProcessTime) -> Acid | None:
    """Give the acid of one jar; None where the recipe adds none, or its amount is in no table."""
    row = _row(process)
    if row is None:
        return None
    tsp = row["citric_acid_tsp"]
    tbsp, ml = int(row["lemon_juice_tbsp"]), int(row["lemon_juice_ml"])
    return Acid(tbsp, ml, Fraction(tsp) if tsp else None)


def acid_words(process: ProcessTime) -> str:
    """Say how much acid a jar of the tested size takes; blank when the recipe adds none.

    A smaller jar takes the amount of the tested size too: more acid is never less safe.
    """
    if not process.acid_in_every_jar:
        return ""
    row = _row(process)
    if row is None:
        return "the amount of the tested recipe"
    either = f"{row['lemon_juice_tbsp']} tbsp ({row['lemon_juice_ml']} ml) bottled lemon juice"
    if row["citric_acid_tsp"]:
        level = f"{row['citric_acid_tsp']} level tsp ({row['citric_acid_ml']} ml)"
        either += f", or {level} citric acid"
    return f"{either}, as for a {process.jar}"


def _row(process: ProcessTime) -> Row | None:
    """Give the row of the tested size of jar, where the recipe adds acid and a table holds it."""
    foods = (process.product, products()[process.product]["group"])
    rows = (r for r in table("acid_amounts") if r["food"] in foods and r["jar"] == process.jar)
    return next(rows, None) if process.acid_in_every_jar else None
