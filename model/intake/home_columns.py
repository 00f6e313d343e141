"""The tables of the table and the garden: who eats, what grows, what was picked."""

from zoneinfo import available_timezones

from model.intake.columns import (
    MOST_ENTRIES,
    Column,
    TableKind,
    choice_column,
    date_column,
    number_column,
    quantity_column,
    temperature_column,
    text_column,
    whole_column,
)
from model.reference.read import table
from model.season.garden import STEPS
from model.season.household import DATE_FORMS, TONGUES, UNITS
from model.season.settings import PLAN_FOR

FOOD_GROUPS = tuple(row["group"] for row in table("portions"))
SETTINGS = tuple(row["setting"] for row in table("judgements"))
FROSTS = ("last spring frost", "first autumn frost")
SEASON_HABIT = "with the season"
ZONES = tuple(sorted(available_timezones()))
EVERYONE = "everyone"
WHOLE_PLATE = "whole plate"
NO_FROSTLESS = "a place without frost cannot be planned yet"

HOME_TABLES: tuple[TableKind, ...] = (
    TableKind(
        "household.csv",
        "the household; one row",
        (
            text_column("household", "its name"),
            Column("invented", "yes_no", "yes for made-up data", required=False),
            Column(
                "altitude",
                "altitude",
                "of the kitchen; without it nothing can be canned",
                required=False,
                measure="length",
            ),
            choice_column("units", "shown on screens", UNITS, required=False),
            choice_column("date_form", "how days are shown", DATE_FORMS, required=False),
            choice_column("tongue", "whose words are shown", TONGUES, required=False),
            Column("at_risk", "yes_no", "yes: pregnancy or a weak immune system", required=False),
            choice_column("plan_for", "how much bad years weigh", PLAN_FOR, required=False),
            choice_column("time_zone", "such as Europe/London", ZONES, required=False),
            date_column("notes_date", "the day these notes are read on", required=False),
        ),
        least_rows=1,
    ),
    TableKind(
        "settings.csv",
        "a judgement value that the household changes",
        (
            choice_column("setting", "its name", SETTINGS),
            number_column("value", "in the unit of the reference table", 0.0, 1000.0),
        ),
        required=False,
        unique=("setting",),
    ),
    TableKind(
        "frosts.csv",
        "one of the two frost dates, with its odds",
        (
            choice_column("frost", "which", FROSTS),
            Column("early_month_day", "month_day", f"earlier in one year of ten; {NO_FROSTLESS}"),
            Column(
                "median_month_day", "month_day", f"earlier in every second year; {NO_FROSTLESS}"
            ),
            Column("late_month_day", "month_day", f"later in one year of ten; {NO_FROSTLESS}"),
        ),
        unique=("frost",),
    ),
    TableKind(
        "eaters.csv",
        "a person at the table",
        (
            text_column("eater", "name", reserved=(EVERYONE,)),
            whole_column("age_years", "age", 0, 120),
            choice_column("sex", "for the portion scale", ("female", "male"), required=False),
            number_column("appetite", "times the usual for the age", 0.1, 3.0, required=False),
        ),
        unique=("eater",),
        least_rows=1,
    ),
    TableKind(
        "away.csv",
        "somebody is not at the table",
        (
            text_column("who", "an eater, or everyone"),
            date_column("begins", "first day away"),
            date_column("ends", "last day away"),
        ),
        required=False,
    ),
    TableKind(
        "guests.csv",
        "guests at the table",
        (
            number_column("adults", "how many, a child as a part", 0.1, 500.0),
            date_column("begins", "first day"),
            date_column("ends", "last day"),
        ),
        required=False,
    ),
    TableKind(
        "habits.csv",
        "how eating runs through the year: a factor from a date on",
        (
            text_column("habit", "name", reserved=(SEASON_HABIT,)),
            Column("from_month_day", "month_day", "from this date on"),
            number_column("factor", "times the usual", 0.0, 5.0),
        ),
        required=False,
        unique=("habit", "from_month_day"),
    ),
    TableKind(
        "foods.csv",
        "something on the plate, fresh or kept",
        (
            text_column("food", "name", reserved=(WHOLE_PLATE,)),
            choice_column("group", "what a portion is", FOOD_GROUPS),
            number_column("portions_a_week", "wanted by one adult", 0.0, 100.0),
            number_column("most_a_week", "one adult will eat at most", 0.0, 200.0, required=False),
            number_column("liking", "1 (little) to 5 (much)", 1.0, 5.0, required=False),
            text_column("habit", "a habit of habits.csv", required=False),
            Column("crops", "names", "eaten fresh as this food", required=False),
        ),
        unique=("food",),
        least_rows=1,
    ),
    TableKind(
        "beds.csv",
        "a bed",
        (text_column("bed", "name"), quantity_column("area", "area", "its size", 1e5)),
        unique=("bed",),
        least_rows=1,
    ),
    TableKind(
        "seasons.csv",
        "a garden year",
        (
            text_column("season", "name, such as 2027"),
            date_column("begins", "first day"),
            date_column("ends", "last day"),
            Column("normal", "yes_no", "no for hail or blight years", required=False),
        ),
        unique=("season",),
        least_rows=1,
    ),
    TableKind(
        "plantings.csv",
        "a crop in a bed",
        (
            text_column("season", "the garden year of its harvest"),
            text_column("crop", "name"),
            text_column("form", "of a fruit tree, such as cordon", required=False),
            text_column("bed", "a bed of beds.csv"),
            date_column("sown", "sowing day", required=False),
            date_column("planted_out", "day of planting or planting out", required=False),
            date_column("first_picking", "expected; perennials need it", required=False),
            quantity_column("area", "area", "how much, by area", 1e5, required=False),
            whole_column("plants", "how much, by plants", 0, 1e5, required=False),
            quantity_column("row", "length", "how much, by row length", 1e5, required=False),
            number_column("least_percent", "the plan may shrink it to", 0.0, 100.0, required=False),
            number_column("most_percent", "the plan may grow it to", 100.0, 1000.0, required=False),
            text_column("choice", "rows with one word here share the amount", required=False),
            choice_column("done", "the last step that was done", STEPS, required=False),
            text_column("note", "a guess stays one after its day", required=False),
        ),
        most_rows=MOST_ENTRIES,
        least_rows=1,
    ),
    TableKind(
        "harvest_log.csv",
        "something that was picked",
        (
            date_column("picked_on", "day"),
            text_column("crop", "name"),
            quantity_column("picked", "mass", "weight as picked", 1e4),
            number_column("number", "as it was counted", 0.0, 1e4, required=False),
            text_column("container", "what was counted, such as trug", required=False),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
    ),
    TableKind(
        "weather.csv",
        "a day's temperatures",
        (
            date_column("day", "day"),
            temperature_column("high", "highest"),
            temperature_column("low", "lowest"),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
        unique=("day",),
    ),
    TableKind(
        "setbacks.csv",
        "part of a crop is gone",
        (
            date_column("noticed_on", "day"),
            text_column("crop", "name"),
            number_column("lost_percent", "of what was still to come", 0.0, 100.0),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
    ),
)
