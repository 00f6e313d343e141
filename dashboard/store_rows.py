"""Root stores and curing for the eye: days, losses and air in the household's own words."""

from datetime import date, timedelta

import pandas as pd

from dashboard.units import temperatures, units_of, weight
from dashboard.words import about, count, day, short_day
from model import Season


def store_rows(stores: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is to know of each making in a root store, in three columns for a phone."""
    return pd.DataFrame(
        {
            "stored": [_stored(row, units) for row in stores.itertuples()],
            "keep_until": [
                f"{_kept(row)}; loses about {about(100 * row.loss_share)} % a week"
                for row in stores.itertuples()
            ],
            "store_note": [_wants(row, units) for row in stores.itertuples()],
        }
    )


def store_air(season: Season, name: str) -> str:
    """Say how warm and damp a root store is, as far as the notes know."""
    place = next(place for place in season.places if place.name == name)
    told = []
    if place.temp_c is not None:
        told.append(temperatures(place.temp_c, place.temp_c, season.units))
    if place.humidity_percent is not None:
        told.append(f"{place.humidity_percent:.0f} % humidity")
    return ", ".join(told) or "its air is not in the notes"


def _stored(row: tuple, units: str) -> str:
    if row.put_up_on is None:
        return f"{row.preserve}: none there"
    left = units_of(row.standing_units, "kg", units)
    return f"{row.preserve} of {day(row.put_up_on)}: {left} likely left"


def _kept(row: tuple) -> str:
    if row.put_up_on is None:
        low, high = round(row.keeps_weeks_low), round(row.keeps_weeks_high)
        return count(high, "week") if low == high else f"{low} to {high} weeks"
    low, high = row.keep_until_low, row.keep_until_high
    if low == high:
        return f"about {day(low)}"
    return f"{short_day(low) if low.year == high.year else day(low)} to {day(high)}"


def _wants(row: tuple, units: str) -> str:
    wants = ""
    if not pd.isna(row.wanted_c_low):
        warmth = temperatures(row.wanted_c_low, row.wanted_c_high, units)
        humid = f"{row.wanted_percent_low:.0f} to {row.wanted_percent_high:.0f} %"
        wants = f"wants {warmth}, {humid} humidity"
    told = f"**{row.store_warning}**" if row.store_warning else ""
    return "; ".join(filter(None, (told, wants)))


def in_hand_rows(in_hand: pd.DataFrame, today: date, units: str) -> pd.DataFrame:
    """Give what is to hand, until when it holds and how it may wait, in three columns."""
    return pd.DataFrame(
        {
            "in_hand": [
                f"{row.crop}, {weight(row.in_hand_kg, units)}" for row in in_hand.itertuples()
            ],
            "hold_by": [_holds(row, today) for row in in_hand.itertuples()],
            "way_to_wait": in_hand["way_to_wait"],
        }
    )


def _holds(row: tuple, today: date) -> str:
    low, high = (row.picked_on + timedelta(days=d) for d in (row.hold_days_low, row.hold_days_high))
    until = day(high) if low == high else f"{short_day(low)} to {day(high)}"
    if low < today:
        until = f"the oldest is due now, at best until {day(max(high, today))}"
    return f"{until}, {row.hold_where}"


def curing_rows(curing: pd.DataFrame, units: str) -> pd.DataFrame:
    """Give what is to be cured, until when and in what air, in three columns for a phone."""
    return pd.DataFrame(
        {
            "cured": [
                f"{row.crop}, {weight(row.lifted_kg, units)} of {short_day(row.cure_from)}"
                for row in curing.itertuples()
            ],
            "cure_until": [
                day(row.cure_until_low)
                if row.cure_until_low == row.cure_until_high
                else f"{short_day(row.cure_until_low)} to {day(row.cure_until_high)}"
                for row in curing.itertuples()
            ],
            "cure_air": [_cure_air(row, units) for row in curing.itertuples()],
        }
    )


def _cure_air(row: tuple, units: str) -> str:
    told = []
    if not pd.isna(row.cure_c_low):
        told.append(temperatures(row.cure_c_low, row.cure_c_high, units))
    if not pd.isna(row.cure_percent_low):
        told.append(f"{row.cure_percent_low:.0f} to {row.cure_percent_high:.0f} % humidity")
    return ", ".join([*told, row.cure_how])
