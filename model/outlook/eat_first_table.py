"""What to eat first: by condition, then by the keeping life left, then by age.

The order is one of looking and eating. It never says that something is safe: age alone makes
no sealed jar unsafe, nor youth safe.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

import pandas as pd

from model.outlook.own_units import in_own
from model.planning import PlannedSeason
from model.reference.lookup import keeping
from model.season.kitchen import Preserve
from model.season.ledger import Standing
from model.season.mates import ToLookAt, to_look_at
from model.season.record import WENT
from model.season.season import Season
from model.season.unseen_seals import unconfirmed

LOOK, CHILLED, UNSEEN, SORT, QUALITY, KEEPS = CONDITIONS = (
    "look first",
    "did not seal",
    "seals not looked at",
    "sort first",
    "past its best",
    "keeps",
)
# What nobody may take before it was looked at, and what to do first.
BEFORE_TAKING = {
    LOOK: "a jar like it was bad, look at each",
    UNSEEN: "look at the seals first",
}
UNSURE = "look at its seals before it is put away: it is not counted as sure"
FRESH = "let it stand untouched, and look at its seals tomorrow: it is not counted as sure"
# Iowa State University Extension: an unsealed jar is past saving 24 hours after its process.
LATE = "nobody looked at its seals: one found unsealed now is past saving and is thrown away"
LATE_AFTER = timedelta(days=2)
SORT_WEEKS = 4
LEAST_LEFT = 0.5
# Published advice for an unsealed jar in the refrigerator runs from a day or two to a week
# (USDA AIB 410; Kansas State University Extension): after that it is no longer listed.
CHILLED_DAYS = 7
REFRIGERATED, *_ = WENT
COLUMNS = (
    *("eat_order", "preserve", "food", "unit", "standing_units", "put_up_on"),
    *("condition", "weeks_left", "why_first", "before_taking", "not_eaten_units"),
)


@dataclass(frozen=True, slots=True)
class _Row:
    preserve: Preserve
    units: float
    put_up: date
    condition: str
    weeks_left: int
    why: str
    near: int = 0
    not_eaten: float = 0.0

    @property
    def rank(self) -> tuple[int, int, int, date, str]:
        sooner = min(CONDITIONS.index(self.condition), CONDITIONS.index(QUALITY))
        return sooner, self.near, self.weeks_left, self.put_up, self.preserve.name


def eat_first_table(planned: PlannedSeason) -> pd.DataFrame:
    """One row a making that stands there, in the order to look at it and eat it, with why.

    Unsealed jars in the refrigerator and jars whose seals nobody looked at are listed too;
    they are no stock. Of what is to be looked at because a jar like it was bad, all stands here
    that the book knows; of all else what is likely left. ``weeks_left`` counts to the end of
    keeping, of canned jars to the end of their best quality; it is below 0 when that is past. Of
    what is to be sorted the plan does not eat ``not_eaten_units`` before that.
    ``before_taking`` says what comes before anybody takes of it; it is empty where that is no
    more than the look at every jar.

    >>> first = model.eat_first_table(planned)
    >>> print(*first)
    eat_order preserve food unit standing_units put_up_on condition weeks_left why_first
    before_taking not_eaten_units
    >>> first["preserve"].iloc[0]
    'beetroot in sand'
    """
    season, today = planned.case.season, planned.case.today
    # a count may have put several batches under one day: all of a preserve wait together
    bad = dict[str, ToLookAt]()
    for one in to_look_at(season, today):
        bad.setdefault(one.batch.preserve, one)
    there = [
        one for one in (*planned.case.stock, *planned.case.past_keeping) if one.preserve not in bad
    ]
    # what was likely eaten since is no reason to leave a doubtful jar unseen: all the book knows
    there += [one for name in bad for one in planned.case.books[name].standing]
    rows = [_standing(season, one, bad, today) for one in there]
    rows += _chilled(season, today)
    for batch in unconfirmed(season, today):
        own = season.preserve(batch.preserve)
        late = LATE if batch.put_up + LATE_AFTER <= today else UNSURE
        why = FRESH if batch.put_up == today else late
        left = weeks_left(own, batch.put_up, today)
        rows.append(_Row(own, batch.filled, batch.put_up, UNSEEN, left, why))
    rows = [_not_eaten(planned, row) for row in rows]
    table = [
        {
            "eat_order": place,
            "preserve": row.preserve.name,
            "food": row.preserve.food,
            "unit": row.preserve.unit,
            "standing_units": row.units,
            "put_up_on": row.put_up,
            "condition": row.condition,
            "weeks_left": row.weeks_left,
            "why_first": row.why,
            "before_taking": BEFORE_TAKING.get(row.condition, ""),
            "not_eaten_units": row.not_eaten,
        }
        for place, row in enumerate(sorted(rows, key=lambda row: row.rank), start=1)
    ]
    return pd.DataFrame(table, columns=list(COLUMNS))


def best_weeks(preserve: Preserve) -> int:
    """Give the weeks to the end of keeping; of canned jars to the end of their best quality.

    The weeks that the household gives go before what is published, as everywhere.
    """
    published = preserve.canned and not preserve.own_weeks
    best = keeping("can", preserve.crops[0]) if published else None
    return min(preserve.keeps_weeks, round(best.weeks_low)) if best else preserve.keeps_weeks


def weeks_left(preserve: Preserve, put_up: date, today: date) -> int:
    """Give the whole weeks to the end of ``best_weeks``; below 0 when that is past."""
    ends = put_up + timedelta(weeks=best_weeks(preserve))
    return (ends - today).days // 7


def _standing(season: Season, one: Standing, bad: Mapping[str, ToLookAt], today: date) -> _Row:
    own = season.preserve(one.preserve)
    left = weeks_left(own, one.put_up, today)
    like = bad.get(one.preserve)
    if like is not None:
        condition = LOOK
        why = (
            f"a bad jar was found on {like.noticed}, and this is of {like.why}: look at seal and "
            "contents, and do not taste it if in doubt"
        )
    elif own.method == "root store" and left <= SORT_WEEKS:
        condition = SORT
        why = "past its keeping" if left < 0 else _keeps(left)
        why += ": sort it now, rot spreads"
    elif left < 0:
        condition = QUALITY
        why = "past its best: its quality goes"
        if own.canned:
            why = (
                f"over {best_weeks(own)} weeks old: its quality goes; look at seal and contents"
                " before it is opened"
            )
    else:
        condition, why = KEEPS, _keeps(left)
    near = list(bad).index(one.preserve) if like is not None else 0
    return _Row(own, one.units, one.put_up, condition, left, why, near)


def weeks_to_eat(left: int) -> int:
    """Give the weeks of the plan until what keeps for so many more, this one too, is past it."""
    return left + 2


def _not_eaten(planned: PlannedSeason, row: _Row) -> _Row:
    """Say how much the plan does not eat of what is to be sorted, before it is past its keeping."""
    if row.condition != SORT or row.weeks_left < 0:
        return row
    r = planned.case.arrays.preserves.index(row.preserve.name)
    left = min(row.units, float(planned.plan.past[r, : weeks_to_eat(row.weeks_left)].sum()))
    if left < LEAST_LEFT:
        return row
    number, unit = in_own(left, row.preserve.unit, planned.case.season.units)
    words = f"; about {number:.0f} {unit} of it will not be eaten by then: cook, freeze or dry it"
    return replace(row, why=row.why + words, not_eaten=left)


def _keeps(weeks: int) -> str:
    if weeks < 1:
        return "keeps less than a week more"
    return f"keeps about {weeks} week{'s' if weeks > 1 else ''} more"


def _chilled(season: Season, today: date) -> list[_Row]:
    """List the unsealed jars that went into the refrigerator in the last days."""
    rows = []
    lately = today - timedelta(days=CHILLED_DAYS)
    looks = season.record.newest_checks(today)
    for batch in season.record.batches:
        look = looks.get(batch.code)
        if look is None or look.went != REFRIGERATED or look.sealed >= batch.filled:
            continue
        # its mates may have been looked at again since
        since = min(
            check.checked
            for check in season.record.seal_checks
            if (check.batch, check.went) == (batch.code, REFRIGERATED)
        )
        if since >= lately:
            own = season.preserve(batch.preserve)
            why = f"in the refrigerator since {since}: within a few days, or throw it away"
            rows.append(_Row(own, batch.filled - look.sealed, batch.put_up, CHILLED, 0, why))
    return rows
