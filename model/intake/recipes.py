"""Preserves: each row of preserves.csv filled from the reference tables and put to the test.

A canned preserve without a tested process is a fault here, so it cannot enter a plan.
"""

from dataclasses import replace

from model.errors import NoAltitude, NoTestedProcess
from model.intake.desk import Desk
from model.intake.recipe_work import (
    Kitchen,
    Measure,
    keeps_weeks,
    minutes_per_load,
    minutes_per_unit,
    space_per_unit,
)
from model.intake.rows import TypedRow
from model.intake.tested_recipes import check_density, suits, tested_with
from model.reference.lookup import crop as find_crop
from model.reference.lookup import fresh_per_jar, fresh_per_kept
from model.reference.store_life import STORE, store_life
from model.safety.process_times import process_time
from model.season.household import Food
from model.season.kitchen import Canner, Ingredient, Jar, Place, Preserve
from model.season.settings import Settings

PLACE_KIND = {"freeze": "freezer", "ferment": "crock", "root store": "root store"}
DRIED_BAG, DRIED_BAG_KG = "100 g bag", 0.1


def preserves(desk: Desk, kitchen: Kitchen) -> tuple[Preserve, ...]:
    """Give the preserves that stand every check; the faults of the others are on the desk."""
    made = []
    further = _further(desk)
    for row in desk.of("preserves.csv"):
        food_name = desk.known(row, "food", "foods.csv", "food")
        crop = desk.crop(row, row.text("crop"))
        measure = _measure(desk, row, kitchen)
        place = _place(desk, row, kitchen)
        food = next((f for f in kitchen.foods if f.name == food_name), None)
        if food is None or crop is None or measure is None or place is None:
            continue
        parts = further.get(row.text("preserve"), [])
        ingredients = _ingredients(desk, row, crop, measure, parts)
        portions = row.number("portions_per_jar") or _portions(
            food, crop, ingredients, measure, kitchen.chosen
        )
        if ingredients and portions:
            made.append(_preserve(row, food, ingredients, measure, (place, portions), kitchen))
    return tuple(_with_shares(made))


def _measure(desk: Desk, row: TypedRow, kitchen: Kitchen) -> Measure | None:
    method = row.text("method")
    if method == "root store":
        return Measure("kg", None, 1.5, None, None)
    if method == "ferment":
        return Measure("litre", None, 1.0, None, None)
    if method == "dry":
        return Measure(DRIED_BAG, None, 0.5, None, None)
    name = desk.known(row, "jar", "jars.csv", "jar")
    jar = next((jar for jar in kitchen.jars if jar.name == name), None)
    if jar is None:
        return None
    if method == "freeze":
        return Measure("pack", jar, jar.volume_l, None, None)
    return _canned(desk, row, jar, kitchen)


def _canned(desk: Desk, row: TypedRow, jar: Jar, kitchen: Kitchen) -> Measure | None:
    canner = _canner(desk, row, jar, kitchen)
    if not row.text("product") or not row.text("pack"):
        wanted = "name the tested product and its pack (hot or raw) that the recipe follows"
        desk.add(row, "a canned preserve without a tested product", wanted)
        return None
    process = None
    try:
        method = canner.method if canner else row.text("method")
        process = process_time(
            row.text("product"),
            method,
            row.text("pack"),
            f"{jar.volume_l * 1000:.10g} ml",
            kitchen.altitude_ft,
        )
    except NoAltitude as error:
        if not desk.at_fault("household.csv"):
            desk.add(row, error.reason, f"ways that remain: {', '.join(error.ways)}")
    except NoTestedProcess as error:
        if canner or row.text("method") == "boiling water":
            desk.add(row, error.reason, f"ways that remain: {', '.join(error.ways)}")
        return None
    if not suits(desk, row) or canner is None or process is None:
        return None
    return Measure("jar", jar, jar.volume_l, canner, process)


def _canner(desk: Desk, row: TypedRow, jar: Jar, kitchen: Kitchen) -> Canner | None:
    wanted = "pressure" if row.text("method") == "pressure" else "boiling water"
    suitable = [c for c in kitchen.canners if c.method.startswith(wanted)]
    for canner in suitable:
        if canner.load_of(jar.name):
            return canner
    if suitable:
        desk.add(
            row, f"{suitable[0].name} has no load of {jar.name}", "add its row in equipment.csv"
        )
    elif not desk.at_fault("equipment.csv"):
        desk.add(row, f"there is no {wanted} canner in equipment.csv", "choose a way you can do")
    return None


def _place(desk: Desk, row: TypedRow, kitchen: Kitchen) -> Place | None:
    kind = PLACE_KIND.get(row.text("method"), "shelf")
    if row.text("place"):
        name = desk.known(row, "place", "places.csv", "place")
        place = next((p for p in kitchen.places if p.name == name), None)
        if place is not None and place.kind != kind:
            desk.add(row, f"{place.name} is a {place.kind}", f"it needs a {kind}")
            return None
        return place
    for place in kitchen.places:
        if place.kind == kind:
            return place
    if not desk.at_fault("places.csv"):
        desk.add(row, f"there is no {kind} in places.csv", "add one, or choose another method")
    return None


def _further(desk: Desk) -> dict[str, list[tuple[TypedRow, Ingredient]]]:
    """Give the further crops of each preserve; a crop goes into it once."""
    further: dict[str, list[tuple[TypedRow, Ingredient]]] = {}
    for row in desk.of("ingredients.csv"):
        preserve = desk.known(row, "preserve", "preserves.csv", "preserve")
        crop = desk.crop(row, row.text("crop"))
        if preserve is None or crop is None:
            continue
        others = further.setdefault(preserve, [])
        if any(other.crop == crop for _, other in others):
            desk.add(row, f"{crop} goes into {preserve} twice", "give its whole weight in one row")
        else:
            others.append((row, Ingredient(crop, row.number("fresh_per_jar"))))
    return further


def _ingredients(
    desk: Desk,
    row: TypedRow,
    crop: str,
    measure: Measure,
    further: list[tuple[TypedRow, Ingredient]],
) -> tuple[Ingredient, ...]:
    given = row.known("fresh_per_jar")
    parts = _typical(row, crop, measure) if given is None else {crop: given}
    if not parts:
        wanted = "give fresh_per_jar, in kg or lb as picked"
        desk.add(row, f"no weight of {crop} for this is in the tables", wanted)
    for place, other in further:
        if other.crop == crop:
            wanted = "give its weight as fresh_per_jar in preserves.csv"
            desk.add(place, f"{crop} is the main crop of {row.text('preserve')}", wanted)
        if tested_with(desk, place, other.crop, measure):
            parts[other.crop] = other.kg
    check_density(desk, row, parts, measure)
    return tuple(Ingredient(name, kg) for name, kg in parts.items())


def _typical(row: TypedRow, crop: str, measure: Measure) -> dict[str, float]:
    method = row.text("method")
    if method == "root store":
        return {crop: 1.0}
    if measure.process is not None:
        weights = fresh_per_jar(measure.process.product, crop, row.text("style"))
        return {weight.crop: weight.kg_per_l * measure.volume_l for weight in weights}
    kept = fresh_per_kept(method, crop)
    if kept is None:
        return {}
    return {crop: kept.kg_per_l * (DRIED_BAG_KG if method == "dry" else measure.volume_l)}


def _portions(
    food: Food,
    crop: str,
    ingredients: tuple[Ingredient, ...],
    measure: Measure,
    chosen: Settings,
) -> float:
    if measure.unit in ("jar", "pack", "litre"):
        return measure.volume_l * 1000.0 / food.portion_ml
    if measure.unit == DRIED_BAG:
        return DRIED_BAG_KG * 1000.0 / chosen.dried_portion_g
    fresh_kg = sum(ingredient.kg for ingredient in ingredients)
    return fresh_kg * find_crop(crop).edible_share * 1000.0 / food.portion_g


def _preserve(
    row: TypedRow,
    food: Food,
    ingredients: tuple[Ingredient, ...],
    measure: Measure,
    kept: tuple[Place, float],
    kitchen: Kitchen,
) -> Preserve:
    chosen, method, crop = kitchen.chosen, row.text("method"), ingredients[0].crop
    place, portions = kept
    load = measure.canner.load_of(measure.jar.name) if measure.canner and measure.jar else None
    stored = store_life(crop, place, chosen) if method == STORE else None
    return Preserve(
        name=row.text("preserve"),
        food=food.name,
        method=method,
        product=measure.process.product if measure.process else "",
        pack=row.text("pack"),
        jar=measure.jar.name if measure.jar else None,
        unit=measure.unit,
        ingredients=ingredients,
        portions=portions,
        minutes_per_unit=minutes_per_unit(row, ingredients, measure, chosen),
        minutes_per_load=minutes_per_load(measure, chosen),
        units_per_load=load,
        keeps_weeks=keeps_weeks(row, crop, place, chosen),
        own_weeks=row.whole("keeps_weeks") is not None,
        ready_after_weeks=round(chosen.ferment_weeks) if method == "ferment" else 0,
        loss_per_week=stored.loss_per_week if stored else 0.0,
        place=place.name,
        space_per_unit=space_per_unit(row, measure, chosen),
        share_of_food=row.number("share_percent", -1.0) / 100.0,
        liking=row.number("liking", food.liking),
        most_portions_a_week=row.known("most_a_week"),
        target=row.whole("target"),
        process=measure.process,
    )


def _with_shares(made: list[Preserve]) -> list[Preserve]:
    """Spread what the household left open evenly, so that each food's shares sum to 1."""
    shared = []
    for preserve in made:
        group = [other for other in made if other.food == preserve.food]
        given = sum(other.share_of_food for other in group if other.share_of_food >= 0)
        blank = sum(other.share_of_food < 0 for other in group)
        share = preserve.share_of_food
        if share < 0:
            share = max(0.0, 1.0 - given) / blank
        elif given > 0 and (given > 1 or blank == 0):
            share /= given
        shared.append(replace(preserve, share_of_food=share))
    return shared
