"""How each food stands: one meaning of enough, for every sentence, colour, table and chart."""

from datetime import date, timedelta

import pandas as pd

from dashboard.words import PLATE, about, day, day_or, plate_words, short_day
from model import LEAST_LEVEL

WEEK = timedelta(days=7)
# a food is said to last when it does in eight years of ten, the household's "almost always"
ENOUGH = ((0.8, "yes"), (0.5, "likely"), (0.0, "no"))
GONE, PAST, NONE = "gives out", "past keeping", ("none left", "none put up", "seldom any")
LEAST_PORTIONS = 0.05


def lasting_rows(foods: pd.DataFrame, today: date, lean_share: float) -> pd.DataFrame:
    """Add how each food stands and the words beside its bar; the plate first, then by date.

    ``standing`` is enough, just about, gives out, or that there is none: nothing was left of it
    today, or nothing of it stands there as its weeks without fresh begin, by the plan or, though
    the plan puts some up, in most of the simulated years.
    """
    shown = foods.copy()
    shown["enough"] = [
        next(word for least, word in ENOUGH if share >= least) for share in shown["chance_lasts"]
    ]
    shown["standing"] = [_standing(row, today) for row in shown.itertuples()]
    shown["label"] = [
        short_day(row.lasts_until) if row.standing in (GONE, PAST) else row.standing
        for row in shown.itertuples()
    ]
    for name in ("begins", "lasts_low", "lasts_until", "lasts_high", "new_crop", "keeps_until"):
        shown[name] = pd.to_datetime(shown[name])
    shown["other"] = shown["food"] != PLATE
    shown["food"] = shown["food"].replace(PLATE, plate_words(lean_share))
    return shown.sort_values(["other", "lasts_until"], ignore_index=True, kind="stable")


def _standing(row: tuple, today: date) -> str:
    if row.enough != "no":
        return {"yes": "enough", "likely": "just about"}[row.enough]
    if row.lasts_until <= row.begins and row.use_up_portions < LEAST_PORTIONS:
        if row.begins <= today:
            return NONE[0]
        return NONE[2] if row.met_portions - row.fresh_portions >= 1 else NONE[1]
    kept = row.keeps_until
    return PAST if kept is not None and row.lasts_until >= kept - WEEK else GONE


def level_words(row: tuple) -> str:
    """Give the portions a week that just reach the new crop, or that use it up while it keeps."""
    if row.level_portions < LEAST_LEVEL and row.use_up_portions >= LEAST_LEVEL:
        return f"{about(row.use_up_portions)} a week while it keeps"
    return f"{about(row.level_portions)} a week"


def lasting_words(foods: pd.DataFrame) -> pd.DataFrame:
    """Give how long each food lasts, in words; no day by which it is gone where there is none."""
    return pd.DataFrame(
        [
            {
                "food": row.food,
                "standing": row.standing,
                "lasts_until": "the new crop" if row.enough != "no" else _until(row, "lasts_until"),
                "lasts_low": _until(row, "lasts_low"),
                "new_crop": day_or(row.new_crop, "none planted"),
                "level_portions": level_words(row),
            }
            for row in foods.itertuples()
        ]
    )


def until_rows(foods: pd.DataFrame) -> pd.DataFrame:
    """Give until when each food has to last: all that is known of a shelf nobody counted."""
    own = foods[foods["other"]].sort_values("new_crop", kind="stable")
    days = [day_or(when, "none planted") for when in own["new_crop"]]
    return pd.DataFrame({"food": own["food"], "new_crop": days})


def pace_words(row: pd.DataFrame) -> str:
    """Say at whose pace jars are drawn, and when one food, of one row or none, is gone at another.

    The plan spreads over the winter what would give out: its jars stand longer.
    """
    words = (
        "Line: the plan's own pace in one ordinary year, which spreads what there is over the "
        "winter; band: eight years in ten at that pace."
    )
    if row.empty or row.iloc[0]["standing"] != GONE:
        return words
    return f"{words} Eaten as everyone wants, it is gone about {day(row.iloc[0]['lasts_until'])}."


def _until(row: tuple, name: str) -> str:
    return "" if row.standing in NONE else day(getattr(row, name))


def shortfall_rows(foods: pd.DataFrame) -> pd.DataFrame:
    """Give the portions that each food of ``lasting_rows`` falls short of the want, most first."""
    short = foods[foods["wanted_portions"] - foods["met_portions"] >= 1].copy()
    short["short_portions"] = short["wanted_portions"] - short["met_portions"]
    return pd.DataFrame(
        [
            {
                "food": row.food,
                "short_portions": f"{about(row.short_portions)} portions",
                "wanted_portions": f"{about(row.wanted_portions)} portions",
                "lasts_until": _until(row, "lasts_until"),
                "new_crop": day_or(row.new_crop, "none planted"),
            }
            for row in short.sort_values("short_portions", ascending=False).itertuples()
        ]
    )
