"""What lies in the root stores: how long it keeps there, what it loses, what stands against it."""

from datetime import date, timedelta

import pandas as pd

from model.outlook.eat_first_table import SORT_WEEKS, weeks_left
from model.outlook.kitchen_table import batch_table
from model.planning import PlannedSeason
from model.reference.store_life import (
    STORE,
    StoreConditions,
    StoreLife,
    harm,
    store_conditions,
    store_life,
)
from model.season.kitchen import Place, Preserve
from model.season.ledger import Standing

# The cautions of the reference tables: sort the root store each month, rot spreads.
SORT_EVERY = timedelta(weeks=4)
COLUMNS = (
    *("place", "preserve", "standing_units", "unit", "put_up_on"),
    *("wanted_c_low", "wanted_c_high", "wanted_percent_low", "wanted_percent_high"),
    *("keeps_weeks_low", "keeps_weeks_high", "keep_until_low", "keep_until_high"),
    *("loss_share", "sort_on", "store_warning"),
)


def stores_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a making in a root store; one for each preserve of which nothing stands there.

    Temperatures are degrees C, humidities per cent, ``loss_share`` a share of what is left, a
    week. The weeks are those that the notes give, else those of the published tables for the air
    of the place. Rows come by place, then by the first day of keeping.

    >>> stores = model.stores_table(planned)
    >>> print(*stores)
    place preserve standing_units unit put_up_on wanted_c_low wanted_c_high wanted_percent_low
    wanted_percent_high keeps_weeks_low keeps_weeks_high keep_until_low keep_until_high loss_share
    sort_on store_warning
    >>> stores["place"].unique().tolist()
    ['attic', 'cellar']
    """
    season, today = planned.case.season, planned.case.today
    places = {place.name: place for place in season.places}
    stored = [own for own in season.preserves if own.method == STORE]
    there = [*planned.case.stock, *planned.case.past_keeping]
    held = {one.preserve for one in there} | set(batch_table(planned)["preserve"])
    rows = []
    for own in stored:
        place = places[own.place]
        life = store_life(own.crops[0], place, season.settings)
        beside = [
            o.crops[0] for o in stored if o.place == own.place and o is not own and o.name in held
        ]
        told = _warnings(own, place, beside, life)
        standing = [one for one in there if one.preserve == own.name]
        rows += [_row(own, one, life, told, today) for one in standing or (None,)]
    table = pd.DataFrame(rows, columns=list(COLUMNS))
    return table.sort_values(["place", "keep_until_low", "preserve"], ignore_index=True)


def _row(
    own: Preserve, one: Standing | None, life: StoreLife | None, told: str, today: date
) -> dict[str, object]:
    wanted = store_conditions(own.crops[0])
    low = high = float(own.keeps_weeks)
    if life and not own.own_weeks:
        low, high = life.weeks_low, life.weeks_high
    return {
        "place": own.place,
        "preserve": own.name,
        "standing_units": one.units if one else 0.0,
        "unit": own.unit,
        "put_up_on": one.put_up if one else None,
        "wanted_c_low": wanted.temp_c_low if wanted else None,
        "wanted_c_high": wanted.temp_c_high if wanted else None,
        "wanted_percent_low": wanted.humidity_percent_low if wanted else None,
        "wanted_percent_high": wanted.humidity_percent_high if wanted else None,
        "keeps_weeks_low": low,
        "keeps_weeks_high": high,
        "keep_until_low": one.put_up + timedelta(weeks=low) if one else None,
        "keep_until_high": one.put_up + timedelta(weeks=high) if one else None,
        "loss_share": own.loss_per_week,
        "sort_on": _sort_on(own, one.put_up, today) if one else None,
        "store_warning": told,
    }


def _sort_on(own: Preserve, put_up: date, today: date) -> date:
    """Give the next day, from today on, that lies whole months of four weeks after a putting up.

    It is today where little of its keeping is left.
    """
    if weeks_left(own, put_up, today) <= SORT_WEEKS:
        return today
    months = max(1, -((put_up - today) // SORT_EVERY))
    return put_up + months * SORT_EVERY


def _warnings(own: Preserve, place: Place, beside: list[str], life: StoreLife | None) -> str:
    crop = own.crops[0]
    told = [harm(crop, misfit) or misfit for misfit in (life.misfits if life else ())]
    told += filter(None, (harm(crop, other) for other in dict.fromkeys(beside)))
    if place.humidity_percent is None:
        told += _other_air(crop, beside)
    if life is not None and own.keeps_weeks > round(life.weeks_high):
        told.append(f"the notes count on {own.keeps_weeks} weeks: more than is published")
    return "; ".join(told)


def _other_air(crop: str, beside: list[str]) -> list[str]:
    """Name a neighbour that wants air which does this crop no good; one is enough."""
    mine = store_conditions(crop)
    for other in beside:
        theirs = store_conditions(other)
        if mine is None or theirs is None:
            continue
        side = _side(mine, theirs)
        if side:
            return [f"wants {side} air than the {other} beside it"]
    return []


def _side(mine: StoreConditions, theirs: StoreConditions) -> str:
    if mine.humidity_percent_high < theirs.humidity_percent_low:
        return "drier"
    return "damper" if mine.humidity_percent_low > theirs.humidity_percent_high else ""
