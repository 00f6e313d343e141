"""Jars, canners, dryers, places and kitchen hours."""

from model.intake.desk import Desk
from model.intake.rows import TypedRow
from model.safety.jar_sizes import tested_sizes
from model.season.kitchen import CANNER_METHOD, Canner, Dryer, Jar, KitchenHours, Place
from model.season.settings import Settings


def jars(desk: Desk, chosen: Settings) -> tuple[Jar, ...]:
    """Give the jar sizes; the shelf under a jar grows as the square of its width."""
    sizes = []
    pint_ml = float(tested_sizes()["pint"])
    for row in desk.of("jars.csv"):
        volume_ml = row.number("volume")
        typical = chosen.pint_footprint_cm2 * (volume_ml / pint_ml) ** 0.54
        sizes.append(
            Jar(
                name=row.text("jar"),
                volume_l=volume_ml / 1000.0,
                owned=row.whole("owned"),
                lids=row.whole("lids"),
                footprint_cm2=row.number("footprint", typical),
            )
        )
    return tuple(sizes)


def canners(desk: Desk) -> tuple[Canner, ...]:
    """Give each canner with the jars of each size in a load."""
    loads: dict[tuple[str, str], list[tuple[str, int]]] = {}
    for row in desk.of("equipment.csv"):
        if row.text("kind") not in CANNER_METHOD:
            continue
        jar = desk.known(row, "jar", "jars.csv", "jar")
        count = row.whole("jars_per_load")
        if count is None:
            desk.add(row, "jars_per_load is empty", "say how many jars one load holds")
        elif jar is not None:
            loads.setdefault((row.text("equipment"), row.text("kind")), []).append((jar, count))
    return tuple(Canner(name, kind, tuple(own)) for (name, kind), own in loads.items())


def dryers(desk: Desk) -> tuple[Dryer, ...]:
    """Give the dryers."""
    known = []
    for row in desk.of("equipment.csv"):
        if row.text("kind") == "dryer":
            fresh, loads = row.known("fresh_per_load"), row.known("loads_a_week")
            if fresh is None or loads is None:
                wanted = "give fresh_per_load (kg or lb) and loads_a_week"
                desk.add(row, "a dryer without its load", wanted)
            else:
                known.append(Dryer(row.text("equipment"), fresh, loads))
    return tuple(known)


def places(desk: Desk, chosen: Settings) -> tuple[Place, ...]:
    """Give the places, with capacity in the unit of their kind."""
    known = []
    for row in desk.of("places.csv"):
        capacity = _capacity(desk, row, chosen)
        if capacity is not None:
            volume_l = row.number("volume") / 1000.0
            air = _air(desk, row)
            works_from = row.day("works_from")
            if works_from is not None and row.text("kind") != "freezer":
                desk.add(row, f"works_from of a {row.text('kind')}", "only for freezers")
            known.append(
                Place(row.text("place"), row.text("kind"), capacity, volume_l, *air, works_from)
            )
    return tuple(known)


def _air(desk: Desk, row: TypedRow) -> tuple[float | None, float | None]:
    """Give the degrees C and per cent of humidity of a root store, as far as they are known."""
    air = row.known("temp"), row.known("humidity_percent")
    if row.text("kind") != "root store" and air != (None, None):
        desk.add(row, f"temperature or humidity of a {row.text('kind')}", "only for root stores")
        return None, None
    return air


def _capacity(desk: Desk, row: TypedRow, chosen: Settings) -> float | None:
    kind = row.text("kind")
    heading = {"shelf": "shelf_area", "root store": "holds"}.get(kind, "volume")
    size = row.known(heading)
    if size is None:
        desk.add(row, f"a {kind} without its size", f"give {heading}")
        return None
    if kind == "shelf":
        return size * 1e4 * row.number("tiers", 1.0)
    if kind == "freezer":
        return size / 1000.0 * chosen.freezer_fill_share
    return size if kind == "root store" else size / 1000.0


def kitchen_hours(desk: Desk) -> tuple[KitchenHours, ...]:
    """Give the kitchen hours; one row without dates speaks for every other week."""
    stretches = []
    for row in desk.of("kitchen_hours.csv"):
        begins, ends = row.day("begins"), row.day("ends")
        if (begins is None) != (ends is None):
            desk.add(row, "only one of begins and ends is given", "give both, or neither")
        elif desk.in_order(row):
            stretches.append(KitchenHours(begins, ends, row.number("hours_a_week")))
    if not desk.at_fault("kitchen_hours.csv") and sum(s.begins is None for s in stretches) != 1:
        wanted = "give the hours of all other weeks in one row with blank dates"
        desk.add_of_file("kitchen_hours.csv", "not one row stands for all other weeks", wanted)
    return tuple(stretches)
