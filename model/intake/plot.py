"""What grows: beds, garden years, plantings, pickings and setbacks."""

from itertools import pairwise
from math import ceil, floor

from model.intake.desk import Desk
from model.intake.rows import TypedRow
from model.reference.lookup import crop as find_crop
from model.season.garden import (
    Bed,
    Crop,
    CropYield,
    GardenSeason,
    Picking,
    Planting,
    Setback,
    Temperatures,
)

_AMOUNTS = {"area": "m2 of bed", "plants": "plant", "row": "m of row"}


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


def plantings(desk: Desk, places: tuple[Bed, ...]) -> tuple[Planting, ...]:
    """Give the plantings with their published yields, and check that they fit the beds."""
    found = []
    for row in desk.of("plantings.csv"):
        season = desk.known(row, "season", "seasons.csv", "season")
        bed = desk.known(row, "bed", "beds.csv", "bed")
        name = desk.crop(row, row.text("crop"))
        amounts = [key for key in _AMOUNTS if row.known(key) is not None]
        if len(amounts) != 1:
            desk.add(row, f"{len(amounts)} amounts are given", "give one: area, plants or row")
        if season is None or bed is None or name is None or len(amounts) != 1:
            continue
        planting = _planting(desk, row, find_crop(name), season, bed, amounts[0])
        if planting is not None:
            found.append((row, planting))
    _check_beds(desk, found, places)
    return tuple(planting for _, planting in found)


def _planting(
    desk: Desk, row: TypedRow, crop: Crop, season: str, bed: str, key: str
) -> Planting | None:
    published = _yield_of(desk, row, crop, _AMOUNTS[key])
    timed = _timed(desk, row, crop)
    if published is None or not timed:
        return None
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
        yield_status=published.status,
        yield_source=published.source,
    )


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


def _timed(desk: Desk, row: TypedRow, crop: Crop) -> bool:
    sown, out, first = row.day("sown"), row.day("planted_out"), row.day("first_picking")
    if sown and out and out < sown:
        desk.add(row, f"planted out on {out}, before it was sown on {sown}", "mend a date")
        return False
    if first:
        return True
    needed = {"sown": sown, "planted out": out}.get(crop.counted_from)
    if needed is None:
        wanted = f"give first_picking, or {crop.counted_from.replace(' ', '_')}"
        desk.add(
            row,
            f"the picking of {crop.name} cannot be dated",
            wanted.removesuffix(", or first_picking"),
        )
        return False
    return True


def _check_beds(
    desk: Desk, found: list[tuple[TypedRow, Planting]], places: tuple[Bed, ...]
) -> None:
    areas = {bed.name: bed.area_m2 for bed in places}
    for row, planting in found:
        least = planting.least * planting.area_m2_per_unit
        if planting.bed in areas and least > areas[planting.bed] * 1.001:
            wanted = f"at most {areas[planting.bed]:g} m2, the size of the bed"
            desk.add(row, f"{planting.label} takes {least:.1f} m2", wanted)


def crops(found: tuple[Planting, ...], eaten: set[str]) -> tuple[Crop, ...]:
    """Give every crop that is planted, eaten or put up, once, in the order of the alphabet."""
    names = {planting.crop for planting in found} | eaten
    return tuple(find_crop(name) for name in sorted(names, key=str.lower))


def pickings(desk: Desk) -> tuple[Picking, ...]:
    """Give the harvest log."""
    log = []
    for row in desk.of("harvest_log.csv"):
        name, day = desk.crop(row, row.text("crop")), row.day("picked_on")
        if name and day:
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
