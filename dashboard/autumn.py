"""What goes into the ground in autumn for a garden year that nobody has begun yet."""

from datetime import date, timedelta

from dashboard.words import capital, listed, local, short_day
from model import Planting, Season

YEAR, BEFORE, AFTER = timedelta(days=365), timedelta(weeks=2), timedelta(weeks=4)


def autumn_words(season: Season, today: date) -> str:
    """Name what is due to go into the ground for the year that follows; blank where nothing is.

    That is what this year's crop of it stood in the ground for before its season began.
    """
    due = [one for one in _overwintered(season, today) if _is_due(one, today)]
    if not due:
        return ""
    names = listed(dict.fromkeys(one.crop for one in due))
    when = min(one.started + YEAR for one in due if one.started)
    return (
        f"**{local(capital(names))} for next year: into the ground about {short_day(when)}.** "
        "Begin the next season under Review, so that the plan knows of it."
    )


def _overwintered(season: Season, today: date) -> list[Planting]:
    """List the annual plantings of this garden year that began before it did."""
    years = [year for year in season.garden_seasons if year.begins <= today <= year.ends]
    following = {year.name for year in season.garden_seasons if year.begins > today}
    known = {one.crop for one in season.plantings if one.season in following}
    return [
        planting
        for year in years
        for planting in season.plantings
        if planting.season == year.name
        and planting.crop not in known
        and planting.started is not None
        and year.begins - YEAR <= planting.started < year.begins
        and season.crop(planting.crop).days_low is not None
    ]


def _is_due(planting: Planting, today: date) -> bool:
    started = planting.started
    return started is not None and started + YEAR - BEFORE <= today <= started + YEAR + AFTER
