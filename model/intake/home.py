"""Who eats and what: eaters, absences, guests, habits, foods, frosts and settings."""

from dataclasses import replace

from model.intake.desk import Desk
from model.intake.home_columns import EVERYONE, FROSTS, NO_FROSTLESS, SEASON_HABIT
from model.reference.lookup import age_scale, portion, settings
from model.reference.read import table
from model.season.frosts import Frost, Frosts
from model.season.household import (
    RISK_FROM_YEARS,
    RISK_UNDER_YEARS,
    Away,
    Eater,
    Food,
    Guests,
    Habit,
)
from model.season.settings import Settings
from model.season.weeks import YearDay

_NO_FROST = YearDay(1, 1)


def eaters(desk: Desk) -> tuple[Eater, ...]:
    """Give the people at the table on the portion scale for their ages."""
    people = []
    for row in desk.of("eaters.csv"):
        appetite, age = row.number("appetite", 1.0), row.whole("age_years") or 0
        vegetable = age_scale("vegetable", age, row.text("sex")) * appetite
        fruit = age_scale("fruit", age, row.text("sex")) * appetite
        people.append(Eater(row.text("eater"), vegetable, fruit))
    return tuple(people)


def at_risk(desk: Desk) -> bool:
    """Say whether food poisoning would be worse for somebody: by age, or as the notes say."""
    ages = [row.whole("age_years") or 0 for row in desk.of("eaters.csv")]
    said = any(row.cells.get("at_risk") for row in desk.of("household.csv"))
    return said or any(not RISK_UNDER_YEARS <= age < RISK_FROM_YEARS for age in ages)


def away(desk: Desk) -> tuple[Away, ...]:
    """Give the dated absences."""
    absences = []
    for row in desk.of("away.csv"):
        names = desk.names("eaters.csv", "eater")
        known = None if names is None else {**names, EVERYONE: EVERYONE}
        who = known and desk.match(row, "who", row.text("who"), "eaters.csv", known)
        begins, ends = row.day("begins"), row.day("ends")
        if who and begins and ends and desk.in_order(row):
            absences.append(Away(who, begins, ends))
    return tuple(absences)


def guests(desk: Desk) -> tuple[Guests, ...]:
    """Give the dated guests."""
    visits = []
    for row in desk.of("guests.csv"):
        begins, ends = row.day("begins"), row.day("ends")
        if begins and ends and desk.in_order(row):
            visits.append(Guests(row.number("adults"), begins, ends))
    return tuple(visits)


def habits(desk: Desk, frosts: Frosts, chosen: Settings) -> tuple[Habit, ...]:
    """Give the household's habits and the one that goes with the season.

    The season's own habit runs low while the garden grows and rises after midwinter, the
    middle of the time between first and last frost, wherever on earth that is.
    """
    steps: dict[str, list[tuple[YearDay, float]]] = {}
    for row in desk.of("habits.csv"):
        name, start = row.text("habit"), row.cells["from_month_day"]
        spelling = (desk.names("habits.csv", "habit") or {}).get(name.lower(), name)
        if spelling != name:
            desk.add(row, f"habit {name!r} is also written {spelling!r}", "write it in one way")
        elif isinstance(start, YearDay):
            steps.setdefault(name, []).append((start, row.number("factor")))
    midwinter = frosts.midwinter_before(frosts.last_spring.median.in_year(2001))
    steps[SEASON_HABIT] = [
        (frosts.last_spring.median, chosen.habit_growing),
        (frosts.first_autumn.median, chosen.habit_autumn),
        (YearDay(midwinter.month, midwinter.day), chosen.habit_after_midwinter),
    ]
    return tuple(Habit(name, tuple(sorted(own))) for name, own in steps.items())


def foods(desk: Desk) -> tuple[Food, ...]:
    """Give the foods; a crop is eaten fresh as one food only."""
    known, eaten = [], dict[str, str]()
    for row in desk.of("foods.csv"):
        wanted = row.number("portions_a_week")
        most = row.number("most_a_week", 2.0 * wanted)
        if most < wanted:
            desk.add(row, f"most_a_week {most:g} is below portions_a_week {wanted:g}", "raise it")
        habit = SEASON_HABIT
        if row.text("habit").lower() not in ("", SEASON_HABIT):
            habit = desk.known(row, "habit", "habits.csv", "habit") or SEASON_HABIT
        crops = []
        names = row.cells.get("crops")
        for name in names if isinstance(names, tuple) else ():
            crop = desk.crop(row, name)
            if crop is not None and crop in eaten:
                desk.add(row, f"{crop} is already eaten as {eaten[crop]}", "list it once")
            elif crop is not None:
                eaten[crop] = row.text("food")
                crops.append(crop)
        size = portion(row.text("group"))
        known.append(
            Food(
                name=row.text("food"),
                group=row.text("group"),
                portions_a_week=wanted,
                most_a_week=max(most, wanted),
                liking=row.number("liking", 3.0),
                habit=habit,
                portion_ml=size.ml,
                portion_g=size.g,
                plate=size.plate,
                crops=tuple(crops),
            )
        )
    return tuple(known)


def frosts(desk: Desk) -> Frosts:
    """Give both frosts; when one is faulty a stand-in keeps the other checks going."""
    found: dict[str, Frost] = {}
    for row in desk.of("frosts.csv"):
        days = [row.cells[f"{name}_month_day"] for name in ("early", "median", "late")]
        early, median, late = (day if isinstance(day, YearDay) else _NO_FROST for day in days)
        middle = median.in_year(2001)
        if not early.nearest(middle) < middle < late.nearest(middle):
            wanted = "write three different days: early, then median, then late"
            desk.add(row, "the three dates are not one after the other", wanted)
        else:
            found[row.text("frost")] = Frost(early, median, late)
    for name in FROSTS:
        if name not in found and not desk.at_fault("frosts.csv"):
            wanted = f"give both frosts, each in a row; {NO_FROSTLESS}"
            desk.add_of_file("frosts.csv", f"{name!r} is missing", wanted)
    spring, autumn = FROSTS
    return Frosts(
        found.get(spring, Frost(YearDay(4, 1), YearDay(5, 1), YearDay(5, 30))),
        found.get(autumn, Frost(YearDay(9, 1), YearDay(10, 1), YearDay(10, 30))),
    )


def chosen_settings(desk: Desk) -> Settings:
    """Give the judgement values with the household's own in place."""
    limits = {
        row["setting"]: (float(row["least"]), float(row["most"])) for row in table("judgements")
    }
    own = {}
    for row in desk.of("settings.csv"):
        name, value = row.text("setting"), row.number("value")
        least, most = limits[name]
        if least <= value <= most:
            own[name] = value
        else:
            desk.add(row, f"{name} is {value:g}", f"give {least:g} to {most:g}")
    return replace(settings(), **own)
