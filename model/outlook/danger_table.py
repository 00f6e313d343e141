"""What could hurt this household: the few things on its own shelves that need a second look."""

from collections.abc import Iterator

import pandas as pd

from model.outlook.eat_first_table import CHILLED, LOOK, UNSEEN
from model.planning import PlannedSeason
from model.reference.lookup import products
from model.reference.read import source_title, table
from model.season.kitchen import Preserve

BAD_MATE, UNSEALED, NOT_LOOKED_AT = "a jar like it was bad", "did not seal", "seals not looked at"
LOW_ACID, ACID, CROCK, POTATOES = (
    *("low-acid food in jars", "acid in every jar", "open crock", "potatoes"),
)
DANGERS = (BAD_MATE, UNSEALED, NOT_LOOKED_AT, LOW_ACID, ACID, CROCK, POTATOES)
_OF_CONDITION = {LOOK: BAD_MATE, CHILLED: UNSEALED, UNSEEN: NOT_LOOKED_AT}
COLUMNS = (
    *("danger", "preserve", "unit", "standing_units", "danger_why"),
    *("what_to_do", "danger_source"),
)


def danger_table(planned: PlannedSeason, first: pd.DataFrame) -> pd.DataFrame:
    """One row a danger and preserve that stands there, the worst first, with what to do.

    Parameters
    ----------
    first : the eat-first table of the same plan.

    A household in which food poisoning would be worse for somebody (``Season.at_risk``) is
    told the cautious way. What stands there by the book counts whole, whatever of it was likely
    eaten since. What is not listed is not called safe. Sources: the reference table ``dangers``.

    >>> dangers = model.danger_table(planned, model.eat_first_table(planned))
    >>> print(*dangers)
    danger preserve unit standing_units danger_why what_to_do danger_source
    >>> dangers["danger"].iloc[0]
    'acid in every jar'
    """
    season = planned.case.season
    standing: dict[tuple[str, str], float] = {}
    for name, units, condition in _there(planned, first):
        for danger in _dangers(season.preserve(name), condition):
            standing[danger, name] = standing.get((danger, name), 0.0) + units
    told = {row["danger"]: row for row in table("dangers")}
    rows = []
    for (danger, name), units in sorted(standing.items(), key=lambda it: _rank(*it[0])):
        known = told[danger]
        more = f" {known['at_risk']}" if season.at_risk and known["at_risk"] else ""
        rows.append(
            {
                "danger": danger,
                "preserve": name,
                "unit": season.preserve(name).unit,
                "standing_units": units,
                "danger_why": known["why"],
                "what_to_do": known["what_to_do"] + more,
                "danger_source": source_title(known["source"]),
            }
        )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def _there(planned: PlannedSeason, first: pd.DataFrame) -> Iterator[tuple[str, float, str]]:
    """Give what stands there by the book, and what is no stock but lies there, as it is listed."""
    for row in first.to_dict("records"):
        if row["condition"] in _OF_CONDITION:
            yield row["preserve"], row["standing_units"], row["condition"]
    listed = set(first[first["condition"] == LOOK]["preserve"])
    for name, book in planned.case.books.items():
        units = sum(one.units for one in book.standing)
        if units > 0 and name not in listed:
            yield name, units, ""


def _rank(danger: str, preserve: str) -> tuple[int, str]:
    return DANGERS.index(danger), preserve


def _dangers(own: Preserve, condition: str) -> Iterator[str]:
    if condition in _OF_CONDITION:
        yield _OF_CONDITION[condition]
    if own.canned:
        if products()[own.product]["acidity"] == "low-acid":
            yield LOW_ACID
        elif own.process is not None and own.process.acid_in_every_jar:
            yield ACID
    elif own.method == "ferment":
        yield CROCK
    elif own.method == "root store" and "potato" in own.crops:
        yield POTATOES
