"""What goes into the ground in autumn for a garden year that nobody has begun yet."""

from datetime import date, timedelta

from dashboard.words import capital, listed, local, short_day
from model import Season

YEAR, BEFORE, AFTER = timedelta(days=365), timedelta(weeks=2), timedelta(weeks=4)


def autumn_words(season: Season, today: date) -> str:
    """Name what is due to go into the ground for the year that follows; blank where nothing is.

    That is what this year's crop of it stood in the ground for before its season began.
    """
    due = {
        crop: day
        for crop, day in _of_next_autumn(season, today).items()
        if day - BEFORE <= today <= day + AFTER
    }
    if not due:
        return ""
    names, when = local(capital(listed(due))), short_day(min(due.values()))
    return (
        f"**{names} for next year: into the ground about {when}.** "
        "Begin the next season under Review, so that the plan knows of it."
    )


def _of_next_autumn(season: Season, today: date) -> dict[str, date]:
    """Give the annual crops that began before this garden year, each a year after it did."""
    following = {year.name for year in season.garden_seasons if year.begins > today}
    known = {one.crop for one in season.plantings if one.season in following}
    return {
        planting.crop: planting.started + YEAR
        for year in season.garden_seasons
        if year.begins <= today <= year.ends
        for planting in season.plantings
        if planting.season == year.name
        and planting.crop not in known
        and planting.started is not None
        and year.begins - YEAR <= planting.started < year.begins
        and season.crop(planting.crop).days_low is not None
    }
