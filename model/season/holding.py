"""How long what is picked can wait for the kitchen."""

from datetime import timedelta

from model.season.season import Season
from model.season.weeks import Weeks

# A picking is held for the kitchen at most so long; what keeps longer goes to a store.
MOST_HOLD_WEEKS = 6
MOST_STANDING_WEEKS = 12


def hold_weeks(season: Season, crop_name: str) -> int:
    """Count the weeks in which a picking can still be used, its own week among them.

    A crop that is lifted once stands in the ground over its picking time.
    """
    crop = season.crop(crop_name)
    held = min(MOST_HOLD_WEEKS, max(1, round((crop.hold_days + 3.5) / 7)))
    if crop.shape == "single lift":
        standing = (crop.picking_days_low + crop.picking_days_high) / 2 / 7
        return max(held, min(MOST_STANDING_WEEKS, round(standing)))
    return held


def good_next_week_kg(season: Season, weeks: Weeks) -> list[float]:
    """Give of each crop what was picked in the first week, up to today, and is good beyond it.

    None of a crop that holds for weeks: all of its pickings are.
    """
    good, monday = [0.0] * len(season.crops), weeks.monday(1)
    names = [crop.name for crop in season.crops]
    for picking in season.pickings:
        if weeks.first <= picking.day <= weeks.today and picking.crop in names:
            holds = timedelta(days=season.crop(picking.crop).hold_days)
            if picking.day + holds > monday and hold_weeks(season, picking.crop) == 1:
                good[names.index(picking.crop)] += picking.kg
    return good
