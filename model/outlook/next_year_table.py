"""Next year's first draft: how many of what, from what was used and what the household said."""

import pandas as pd

from model.outlook.next_year_draft import drafts
from model.outlook.working_next_year import draft_lines
from model.planning import PlannedSeason

CHANGES = 3
COLUMNS = (
    *("preserve", "food", "unit", "verdict", "used_units", "as_eaten_units", "doubtful_units"),
    *("used_from", "used_until", "missing_weeks", "carry_units", "meant_units", "filled_units"),
    *("before_units", "next_units", "difference_portions", "working"),
)


def next_year_table(planned: PlannedSeason, year: str) -> pd.DataFrame:
    """One row a preserve of the review: sealed units to aim at next year, with the working.

    Used is what was eaten, given away or taken as eaten in the last year before the new crop, as
    far as it is over; the days still to come are added at its pace, while it keeps.
    ``as_eaten_units`` of it went unknown: what a count found missing, spread over the days since
    the count before, up to twice what is wanted of the food in them (once, of what was too much);
    ``doubtful_units`` are beyond that and not taken as eaten. Whatever ran out is stretched over
    the weeks it was missing, of what was too much the carry-over is taken off, and nothing is
    aimed at where the carry-over is a year's use. ``used_from`` to ``used_until`` is that year,
    which is not the garden year of ``review_table``. ``before_units`` is what was meant for the
    year reviewed, or filled where nothing was meant. ``carry_units`` stand there at the new crop.
    Raises KeyError for a year that is not in the notes.

    >>> draft = model.next_year_table(planned, "2026")
    >>> print(*draft)
    preserve food unit verdict used_units as_eaten_units doubtful_units used_from used_until
    missing_weeks carry_units meant_units filled_units before_units next_units difference_portions
    working
    """
    units, rows = planned.case.season.units, []
    for draft in drafts(planned.case, year):
        own, use = draft.preserve, draft.use
        rows.append(
            {
                "preserve": own.name,
                "food": own.food,
                "unit": own.unit,
                "verdict": draft.verdict,
                "used_units": use.units,
                "as_eaten_units": use.unknown,
                "doubtful_units": use.doubtful,
                "used_from": use.begins,
                "used_until": use.ends,
                "missing_weeks": use.missing / 7,
                "carry_units": use.carried,
                "meant_units": draft.meant,
                "filled_units": draft.filled,
                "before_units": draft.before,
                "next_units": draft.aim,
                "difference_portions": (draft.aim - draft.before) * own.portions,
                "working": "; ".join(one.told(str) for one in draft_lines(draft, units)),
            }
        )
    return pd.DataFrame(rows, columns=list(COLUMNS))


def largest_changes(draft: pd.DataFrame) -> pd.DataFrame:
    """Keep the three rows of ``next_year_table`` that change the most portions, largest first.

    >>> len(model.largest_changes(model.next_year_table(planned, "2026")))
    3
    """
    changed = draft[draft["difference_portions"] != 0]
    order = changed["difference_portions"].abs().sort_values(ascending=False, kind="stable").index
    return changed.loc[order].head(CHANGES).reset_index(drop=True)
