"""The plot and what was noted on it: beds, garden years, crops, pickings, weather, setbacks."""

from datetime import date
from itertools import pairwise

from model.intake.desk import Desk
from model.reference.lookup import crop as find_crop
from model.season.garden import (
    Bed,
    Crop,
    GardenSeason,
    Picking,
    Planting,
    Setback,
    Temperatures,
)


def beds(desk: Desk) -> tuple[Bed, ...]:
    """Give the beds."""
    return tuple(Bed(row.text("bed"), row.number("area")) for row in desk.of("beds.csv"))


def garden_seasons(desk: Desk) -> tuple[GardenSeason, ...]:
    """Give the garden years in the order of their dates; they may not overlap."""
    years = []
    for row in desk.of("seasons.csv"):
        begins, ends = row.day("begins"), row.day("ends")
        if begins is None or ends is None:
            continue
        if ends <= begins:
            desk.add(row, f"it ends on {ends}, before it begins on {begins}", "swap the two dates")
        else:
            normal = row.cells.get("normal") is not False
            years.append((row, GardenSeason(row.text("season"), begins, ends, normal)))
    years.sort(key=lambda pair: pair[1].begins)
    for (_, before), (row, year) in pairwise(years):
        if year.begins <= before.ends:
            desk.add(row, f"it begins inside season {before.name}", "let each day be in one season")
    return tuple(year for _, year in years)


def crops(found: tuple[Planting, ...], eaten: set[str]) -> tuple[Crop, ...]:
    """Give every crop that is planted, eaten or put up, once, in the order of the alphabet."""
    names = {planting.crop for planting in found} | eaten
    return tuple(find_crop(name) for name in sorted(names, key=str.lower))


def pickings(desk: Desk, last: date | None) -> tuple[Picking, ...]:
    """Give the harvest log, which has nothing after the ``last`` day of all seasons."""
    log = []
    for row in desk.of("harvest_log.csv"):
        name, day = desk.crop(row, row.text("crop")), row.day("picked_on")
        if desk.in_time(row, "picked_on", last) and name and day:
            log.append(Picking(day, name, row.number("picked")))
    return tuple(log)


def weather(desk: Desk) -> tuple[Temperatures, ...]:
    """Give the daily temperatures, in the order of their days."""
    records = []
    for row in desk.of("weather.csv"):
        day, high, low = row.day("day"), row.known("high"), row.known("low")
        if day is None or high is None or low is None:
            continue
        if low > high:
            desk.add(row, f"the low {low:.1f} C is above the high {high:.1f} C", "swap them")
        else:
            records.append(Temperatures(day, high, low))
    return tuple(sorted(records, key=lambda record: record.day))


def setbacks(desk: Desk) -> tuple[Setback, ...]:
    """Give the setbacks."""
    losses = []
    for row in desk.of("setbacks.csv"):
        name, day = desk.crop(row, row.text("crop")), row.day("noticed_on")
        if name and day:
            losses.append(Setback(day, name, row.number("lost_percent") / 100.0))
    return tuple(losses)
