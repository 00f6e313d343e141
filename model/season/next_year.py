"""The next garden year as a first draft: this year's plantings, each a year later."""

from dataclasses import replace
from datetime import date, timedelta

from model.season.garden import GardenSeason, Planting
from model.season.season import Season
from model.season.weeks import a_year_later


def next_garden_year(season: Season, name: str) -> tuple[GardenSeason, tuple[Planting, ...]]:
    """Give the garden year after one, and that one's plantings moved into it.

    It begins the day after, and is named by its number where the year is. Raises ValueError
    when the notes hold a later year already, KeyError for a year they do not hold.

    >>> year, plantings = model.next_garden_year(season, "2027")
    >>> year.name, year.begins
    ('2028', datetime.date(2028, 3, 1))
    """
    year = season.garden_season(name)
    if any(other.begins > year.begins for other in season.garden_seasons):
        raise ValueError(f"the notes hold a season after {name} already")
    following = GardenSeason(
        name=str(int(name) + 1) if name.isdecimal() else f"{name}, a year later",
        begins=year.ends + timedelta(days=1),
        ends=a_year_later(year.ends),
        normal=True,
    )
    moved = tuple(
        replace(
            planting,
            season=following.name,
            sown=_later(planting.sown),
            planted_out=_later(planting.planted_out),
            first_picking=_later(planting.first_picking),
            done="",
        )
        for planting in season.plantings
        if planting.season == name
    )
    return following, moved


def _later(day: date | None) -> date | None:
    return a_year_later(day) if day else None
