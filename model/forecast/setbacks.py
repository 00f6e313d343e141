"""What setbacks (hail, blight, late frost) have left of a planting."""

from datetime import date, timedelta

from model.season.garden import GardenSeason, Planting, Setback
from model.season.season import Season

SEEDLING_DAYS = 120
# Judgement: with four fifths gone, what is left is dug in and the bed used again.
FAILED_LEFT = 0.2


def setbacks_of(season: Season, planting: Planting, today: date) -> list[Setback]:
    """List the setbacks that fell on a planting by a day, in the order of their days.

    A setback falls on what stood when it was noticed, so that a later second sowing is whole.
    Noticed before anything of the crop was sown (the seedlings, the seed), it falls on all
    of that garden year; last year's falls on nothing of this year's.
    """
    begins = _year_begins(season, planting.season)
    sisters = [
        p for p in season.plantings if (p.crop, p.season) == (planting.crop, planting.season)
    ]
    found = []
    for setback in sorted(season.setbacks, key=lambda setback: setback.noticed):
        if setback.crop == planting.crop and begins <= setback.noticed <= today:
            standing = [sister for sister in sisters if _stood(sister, setback.noticed)]
            if planting in (standing or sisters):
                found.append(setback)
    return found


def share_left(season: Season, planting: Planting, today: date) -> float:
    """Give the share of what is still to come that setbacks have left."""
    left = 1.0
    for setback in setbacks_of(season, planting, today):
        left *= 1.0 - setback.share_lost
    return left


def has_failed(season: Season, planting: Planting, today: date) -> bool:
    """Say whether setbacks have left next to nothing of a planting."""
    return share_left(season, planting, today) <= FAILED_LEFT


def _year_begins(season: Season, name: str) -> date:
    """Give the day from which setbacks are this year's: after the year before, if there is one."""
    year: GardenSeason = next(y for y in season.garden_seasons if y.name == name)
    before = [y.ends for y in season.garden_seasons if y.ends < year.begins]
    return max(before) if before else year.begins - timedelta(days=SEEDLING_DAYS)


def _stood(planting: Planting, on: date) -> bool:
    return planting.started is None or planting.started <= on
