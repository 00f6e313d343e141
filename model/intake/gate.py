"""The gate: tables become a season, or one error that lists every fault."""

from fractions import Fraction
from pathlib import Path

from model.errors import SeasonProblems
from model.intake import equipment, home, larder, plot
from model.intake.desk import Desk
from model.intake.folder import read_tables
from model.intake.plantings import plantings as planted
from model.intake.recipe_work import Kitchen
from model.intake.recipes import preserves
from model.intake.record import record
from model.intake.tables import SeasonTables
from model.season.household import USUAL_DATE_FORM, USUAL_TONGUE
from model.season.season import Season
from model.season.settings import USUALLY_PLAN_FOR


def read_season(path: str | Path) -> Season:
    """Read a folder or zip of the household's CSV tables into a checked, frozen season.

    Raises
    ------
    SeasonProblems : listing every fault with file, row, what was found and what is wanted.

    >>> model.read_season(folder).household
    'Alder Lane'
    >>> model.read_season(folder / "nowhere")
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - nowhere: there is no such folder or zip; give a folder or a zip of the season's CSV files
    """
    return season_from_tables(read_tables(path))


def season_from_tables(tables: SeasonTables) -> Season:
    """Put every table to the checks and build the season; raises SeasonProblems.

    >>> model.season_from_tables(notes) == season
    True
    >>> model.season_from_tables(model.SeasonTables({}, ()))
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 12 problems in the season:
      - beds.csv: the file is missing; each row is a bed
      ...
    """
    desk = Desk(tables)
    desk.check_sizes()
    household = desk.of("household.csv")
    _check_one_household(desk)
    altitude = household[0].cells.get("altitude") if household else None
    chosen = home.chosen_settings(desk)
    frosts = home.frosts(desk)
    foods = home.foods(desk)
    beds = plot.beds(desk)
    kitchen = Kitchen(
        foods=foods,
        jars=equipment.jars(desk, chosen),
        canners=equipment.canners(desk),
        places=equipment.places(desk, chosen),
        altitude_ft=altitude if isinstance(altitude, Fraction) else None,
        chosen=chosen,
    )
    years = plot.garden_seasons(desk)
    last = years[-1].ends if years and not desk.at_fault("seasons.csv") else None
    plantings = planted(desk, beds, years)
    made = preserves(desk, kitchen)
    counted = larder.counts(desk, last)
    noted = record(desk, last)
    larder.check_room(desk, counted, made, kitchen.jars, kitchen.places, noted.taken)
    eaten = {crop for food in foods for crop in food.crops} | {c for p in made for c in p.crops}
    units = (household[0].text("units") if household else "") or "metric"
    season = Season(
        household=household[0].text("household") if household else "",
        invented=bool(household and household[0].cells.get("invented")),
        units=units,
        date_form=(household[0].text("date_form") if household else "") or USUAL_DATE_FORM[units],
        tongue=(household[0].text("tongue") if household else "") or USUAL_TONGUE[units],
        altitude_ft=kitchen.altitude_ft,
        at_risk=home.at_risk(desk),
        plan_for=(household[0].text("plan_for") if household else "") or USUALLY_PLAN_FOR,
        time_zone=household[0].text("time_zone") if household else "",
        notes_date=household[0].day("notes_date") if household else None,
        frosts=frosts,
        eaters=home.eaters(desk),
        away=home.away(desk),
        guests=home.guests(desk),
        habits=home.habits(desk, frosts, chosen),
        foods=foods,
        beds=beds,
        crops=plot.crops(plantings, eaten),
        garden_seasons=years,
        plantings=plantings,
        pickings=plot.pickings(desk, last),
        setbacks=plot.setbacks(desk),
        weather=plot.weather(desk),
        jars=kitchen.jars,
        canners=kitchen.canners,
        dryers=equipment.dryers(desk),
        places=kitchen.places,
        kitchen_hours=equipment.kitchen_hours(desk),
        preserves=made,
        counts=counted,
        gifts=larder.gifts(desk),
        record=noted,
        settings=chosen,
    )
    if desk.problems:
        raise SeasonProblems(desk.problems)
    return season


def _check_one_household(desk: Desk) -> None:
    rows = desk.of("household.csv")
    for extra in rows[1:]:
        desk.add(extra, "a second household", "keep one row; each household has its own folder")
