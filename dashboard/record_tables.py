"""Tables of the record for the eye: own units, dates without doubt, only what differs."""

from collections.abc import Mapping
from datetime import date

import pandas as pd

import model
from dashboard.units import in_own, units_of
from dashboard.words import about, day, day_or, in_own_days, short_day
from model import KEEPS, Ledger, Season

REVIEWED = ("meant", "filled", "opening", "sealed", "eaten", "given", "lost", "unknown")


def eat_first_rows(first: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what to eat first, in three columns that a phone has room for."""
    doubtful = ~first["condition"].eq(KEEPS)
    return pd.DataFrame(
        {
            "preserve": [
                f"{name} of {day(when)}" if pd.notna(when) else name
                for name, when in zip(first["preserve"], first["put_up_on"], strict=True)
            ],
            "standing_units": _amounts(first, "standing_units", units),
            "why_first": first["why_first"].where(
                ~doubtful, "**" + first["condition"] + "**: " + first["why_first"]
            ),
        }
    )


def place_rows(season: Season, books: Mapping[str, Ledger]) -> pd.DataFrame:
    """Give what stands in each place by the book, and when it was counted."""
    rows = [
        {
            "place": own.place,
            "preserve": own.name,
            "by_book": units_of(books[own.name].units, own.unit, season.units),
            "counted_on": _seen(books[own.name]),
        }
        for own in sorted(season.preserves, key=lambda p: (p.place, p.name))
        if books[own.name].units > 0
    ]
    return pd.DataFrame(rows, columns=["place", "preserve", "by_book", "counted_on"])


def _seen(book: Ledger) -> str:
    """Give when it was counted, and that some of it was put up since."""
    if book.counted is None:
        return "never"
    newer = any(one.since > book.counted for one in book.standing)
    return f"{day(book.counted)}; put up since" if newer else day(book.counted)


def product_rows(products: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give how each preserve of the season stands, those behind first."""
    ranked = products.sort_values(
        "product_status", key=lambda status: status.map(model.PRODUCT_STATUSES.index), kind="stable"
    )
    return pd.DataFrame(
        {
            "preserve": ranked["preserve"],
            "product_status": ranked["product_status"],
            "meant": _amounts(ranked, "meant_units", units),
            "sealed": _sealed(ranked, units),
            "to_come": _amounts(ranked, "still_units", units),
            "known_on": [day_or(when, "") for when in ranked["known_on"]],
            "product_reason": ranked["product_reason"].map(in_own_days),
        }
    )


def _sealed(products: pd.DataFrame, units: str) -> list[str]:
    """Give what is sealed or put away, and what waits for a look at its seals."""
    amounts = zip(
        _amounts(products, "sealed_units", units), products["unconfirmed_units"], strict=True
    )
    return [f"{sealed}, {wait:g} to look at" if wait else sealed for sealed, wait in amounts]


def review_rows(review: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give the year of each preserve as numbers in its own unit; blank where there is none."""
    shown = review[["preserve"]].copy()
    for name in REVIEWED:
        numbers = zip(review[f"{name}_units"], review["unit"], strict=True)
        shown[f"{name}_units"] = [_number(number, unit, units) for number, unit in numbers]
    shown["left"] = _amounts(review, "left_units", units)
    ends = zip(review["ran_out"], review["lost_out"], strict=True)
    shown["none_from"] = [_none_from(ran_out, lost_out) for ran_out, lost_out in ends]
    shown["verdict"] = review["verdict"]
    return shown


def _none_from(ran_out: date | None, lost_out: date | None) -> str:
    if pd.notna(lost_out):
        return f"{short_day(lost_out)} (lost)"
    return short_day(ran_out) if pd.notna(ran_out) else ""


def cause_rows(causes: pd.DataFrame) -> pd.DataFrame:
    """Give what bad batches have in common, the chance of it in words."""
    return causes.assign(by_chance=[_seldom(share) for share in causes["by_chance"]])


def _seldom(share: float) -> str:
    return "under 1 in 1,000" if share < 0.001 else f"1 in {round(1 / share):,}"


def next_rows(draft: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give next year's first draft with what was meant, filled and used, and its working."""
    return pd.DataFrame(
        {
            "preserve": draft["preserve"],
            "next_units": _amounts(draft, "next_units", units),
            "meant_units": _amounts(draft, "meant_units", units),
            "filled_units": _amounts(draft, "filled_units", units),
            "used_units": _amounts(draft, "used_units", units),
            "used_until": [day(when) for when in draft["used_until"]],
            "working": draft["working"],
        }
    )


def _amounts(frame: pd.DataFrame, column: str, units: str) -> list[str]:
    pairs = zip(frame[column], frame["unit"], strict=True)
    return ["" if pd.isna(number) else units_of(number, unit, units) for number, unit in pairs]


def _number(number: float | None, unit: str, units: str) -> str:
    if number is None or pd.isna(number) or abs(number) < 1e-9:
        return ""
    own = in_own(number, unit, units)[0]
    return f"{own:g}" if own == round(own) else about(own)
