"""Plantings: their published yields, and whether they fit their season and their bed."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from math import ceil, floor

from model.intake.desk import Desk
from model.intake.first_answers import GUESS
from model.intake.rows import TypedRow
from model.reference.lookup import crop as find_crop
from model.season.garden import Bed, Crop, CropYield, GardenSeason, Planting

_AMOUNTS = {"area": "m2 of bed", "plants": "plant", "row": "m of row"}
# What overwinters is sown in the year before its season, and no annual earlier.
_BEFORE_SEASON = timedelta(days=366)


def plantings(
    desk: Desk, places: tuple[Bed, ...], years: tuple[GardenSeason, ...]
) -> tuple[Planting, ...]:
    """Give the plantings with their published yields; they fit their season and their bed."""
    found = []
    by_name = {year.name: year for year in years}
    for row in desk.of("plantings.csv"):
        season = desk.known(row, "season", "seasons.csv", "season")
        bed = desk.known(row, "bed", "beds.csv", "bed")
        name = desk.crop(row, row.text("crop"))
        amounts = [key for key in _AMOUNTS if row.known(key) is not None]
        if len(amounts) != 1:
            desk.add(row, f"{len(amounts)} amounts are given", "give one: area, plants or row")
        in_order = _in_order(desk, row) and _dated(desk, row)
        if name is None or len(amounts) != 1:
            continue
        crop = find_crop(name)
        published = _yield_of(desk, row, crop, _AMOUNTS[amounts[0]])
        timed = in_order and _timed(desk, row, crop)
        timed = timed and _in_season(desk, row, crop, by_name.get(season or ""))
        if timed and season is not None and bed is not None and published is not None:
            found.append((row, _planting(row, crop, published, season, bed)))
    shared = _shared_out(desk, found)
    _check_beds(desk, [p for p in shared if not p.choice], places, by_name)
    return tuple(shared)


def _planting(row: TypedRow, crop: Crop, published: CropYield, season: str, bed: str) -> Planting:
    key = next(key for key, per in _AMOUNTS.items() if per == published.per)
    amount = row.number(key)
    least = amount * row.number("least_percent", 100.0) / 100.0
    most = amount * row.number("most_percent", 100.0) / 100.0
    if key == "plants":
        least, most = min(amount, ceil(least - 1e-9)), max(amount, floor(most + 1e-9))
    area = {"area": 1.0, "plants": 1.0 / (crop.plants_per_m2 or float("inf")), "row": 0.0}[key]
    if key == "row":
        # a row as wide as makes its published yields per metre and per m2 agree
        bed_yield = next((y for y in crop.yields if y.per == "m2 of bed"), None)
        area = published.kg_typical / bed_yield.kg_typical if bed_yield else 0.3
    return Planting(
        season=season,
        crop=crop.name,
        bed=bed,
        form=row.text("form"),
        sown=row.day("sown"),
        planted_out=row.day("planted_out"),
        first_picking=row.day("first_picking"),
        per=published.per,
        amount=amount,
        least=least,
        most=most,
        kg_per_unit=published.kg_typical,
        area_m2_per_unit=area,
        choice=row.text("choice"),
        guessed=row.text("note") == GUESS,
        done=row.text("done"),
    )


def _shared_out(desk: Desk, found: list[tuple[TypedRow, Planting]]) -> list[Planting]:
    """Let the plantings of one choice share their amount: the first has it, any may take it."""
    first: dict[tuple[str, str], Planting] = {}
    shared = []
    for row, planting in found:
        key = (planting.season, planting.choice)
        leader = first.setdefault(key, planting) if planting.choice else planting
        written = (planting.crop, planting.per, planting.amount, planting.least, planting.most)
        same = (leader.crop, leader.per, leader.amount, leader.least, leader.most)
        if written != same:
            wanted = f"the crop, amount and percents of the first row of choice {planting.choice!r}"
            desk.add(row, f"{planting.amount:g} of {planting.crop}", wanted)
        shared.append(planting if leader is planting else replace(planting, amount=0.0))
    return shared


def _yield_of(desk: Desk, row: TypedRow, crop: Crop, per: str) -> CropYield | None:
    form = row.text("form").lower()
    forms = [y.form for y in crop.yields if y.form]
    if forms and form not in [known.lower() for known in forms]:
        desk.add(
            row, f"form {form!r} of {crop.name} is not known", f"use one of: {', '.join(forms)}"
        )
        return None
    for published in crop.yields:
        if published.per == per and published.form.lower() == (form if forms else ""):
            return published
    known = ", ".join(dict.fromkeys(y.per for y in crop.yields))
    desk.add(row, f"no yield of {crop.name} by the {per} is known", f"give its amount by: {known}")
    return None


def _in_order(desk: Desk, row: TypedRow) -> bool:
    """Check that what is dated comes in the order sown, planted out, first picking."""
    headings = ("sown", "planted_out", "first_picking")
    dated = [(heading, day) for heading in headings if (day := row.day(heading))]
    for (before, earlier), (after, later) in pairwise(dated):
        if later < earlier:
            found = f"{after} on {later} is before {before} on {earlier}"
            desk.add(row, found.replace("_", " "), "mend a date")
            return False
    return True


def _dated(desk: Desk, row: TypedRow) -> bool:
    """Check that the step that is said to be done has its day."""
    done = row.text("done")
    if not done or row.day(done.replace(" ", "_")):
        return True
    desk.add(row, f"{done} is done, and has no day", f"give {done.replace(' ', '_')}")
    return False


def _timed(desk: Desk, row: TypedRow, crop: Crop) -> bool:
    """Check that the first picking is given or can be counted from a date that is."""
    if row.day("first_picking") or _counted(row, crop):
        return True
    dates = dict.fromkeys(("first_picking", crop.counted_from.replace(" ", "_")))
    desk.add(row, f"the picking of {crop.name} cannot be dated", f"give {' or '.join(dates)}")
    return False


def _counted(row: TypedRow, crop: Crop) -> date | None:
    """Give the day from which the days to the first picking are counted."""
    heading = {"sown": "sown", "planted out": "planted_out"}.get(crop.counted_from)
    return row.day(heading) if heading else None


def _in_season(desk: Desk, row: TypedRow, crop: Crop, year: GardenSeason | None) -> bool:
    """Check the dates against the garden year of the harvest, where that is known."""
    if year is None:
        return True
    first_day = date.min if _perennial(crop) else year.begins - _BEFORE_SEASON
    allowed = {"sown": first_day, "planted_out": first_day, "first_picking": year.begins}
    sound = True
    for heading, earliest in allowed.items():
        day = row.day(heading)
        if day and not earliest <= day <= year.ends:
            since = f"{earliest} to " if earliest > date.min else "a day up to "
            wanted = f"give {since}{year.ends} for season {year.name}"
            desk.add(row, f"{heading} is {day}, outside its season", wanted)
            sound = False
    return sound


def _perennial(crop: Crop) -> bool:
    return crop.counted_from == "first picking"


def _check_beds(
    desk: Desk,
    found: list[Planting],
    places: tuple[Bed, ...],
    years: dict[str, GardenSeason],
) -> None:
    """Check that the least amounts fit their beds on the days when all surely stand there.

    An annual surely stands from its start to its first picking at the earliest, a perennial
    all season; the forecast, which knows the day of the plan, dates them more closely.
    """
    areas = {bed.name: bed.area_m2 for bed in places}
    standing: dict[tuple[str, str], list[tuple[date, date, float]]] = {}
    for planting in found:
        if planting.bed in areas and planting.season in years:
            begins, until = _surely_stands(planting, years[planting.season])
            area = planting.least * planting.area_m2_per_unit
            standing.setdefault((planting.season, planting.bed), []).append((begins, until, area))
    for (season, bed), stands in standing.items():
        taken = {
            day: sum(area for begins, until, area in stands if begins <= day <= until)
            for day in {begins for begins, _, _ in stands}
        }
        day = max(taken, key=lambda day: (taken[day], -day.toordinal()))
        if taken[day] > areas[bed] * 1.001:
            desk.add_of_file(
                "plantings.csv",
                f"season {season}: the plantings in {bed} need {taken[day]:.1f} m2 on {day}",
                f"at most {areas[bed]:g} m2; make some smaller, or set least_percent",
            )


def _surely_stands(planting: Planting, year: GardenSeason) -> tuple[date, date]:
    crop = find_crop(planting.crop)
    if _perennial(crop):
        return year.begins, year.ends
    counted = planting.planted_out if crop.counted_from == "planted out" else planting.sown
    until = planting.first_picking
    if until is None and counted is not None:
        until = counted + timedelta(days=round(crop.days_low or 0.0))
    begins = planting.started or until or year.begins
    return begins, max(begins, until or begins)
