"""Heat-processed jars against their tested recipes: the crop, what goes with it, how dense."""

from collections.abc import Mapping

from model.errors import NotInTables
from model.intake.desk import Desk
from model.intake.recipe_work import Measure
from model.intake.rows import TypedRow
from model.reference.lookup import crop as find_crop
from model.reference.lookup import densest_pack, product_crops
from model.reference.lookup import product as find_product

# Published pounds a jar stand in the tables to the gram.
ROUNDED_KG = 0.001


def suits(desk: Desk, row: TypedRow) -> bool:
    """Check that the tested recipe is one for this crop."""
    known = find_product(row.text("product"))
    try:
        crop = find_crop(row.text("crop")).name
    except NotInTables:
        return False
    listed = [name for name in known["crops"].split(";") if name]
    if crop not in listed:
        wanted = f"it is tested for: {', '.join(listed) or 'crops that are not in the tables'}"
        desk.add(row, f"the tested recipe {known['product']!r} is not for {crop}", wanted)
        return False
    return _packed_as_tested(desk, row, known["product"], crop, row.text("pack"))


def _packed_as_tested(desk: Desk, row: TypedRow, product: str, crop: str, pack: str) -> bool:
    hot_only = crop in find_product(product)["hot_pack_only"].split(";")
    if hot_only and pack != "hot":
        desk.add(row, f"{product!r} of {crop} has no tested {pack} pack", "pack it hot")
        return False
    return True


def tested_with(desk: Desk, extra: TypedRow, crop: str, measure: Measure) -> bool:
    """Check that a further crop of a heat-processed jar is one its tested recipe names."""
    if measure.process is None:
        return True
    product = measure.process.product
    named = product_crops(product)
    if crop not in named:
        wanted = f"it is tested with: {', '.join(named)}; take this row out, or put {crop} up apart"
        desk.add(extra, f"{product!r} was not tested with {crop} in it", wanted)
        return False
    return _packed_as_tested(desk, extra, product, crop, measure.process.pack)


def check_density(desk: Desk, row: TypedRow, parts: Mapping[str, float], measure: Measure) -> None:
    """Check that no heat-processed jar holds more than the published range of its recipe."""
    if measure.process is None:
        return
    product = measure.process.product
    densest = densest_pack(product, row.text("style"))
    for limited, kg_per_l in densest.items():
        # a crop without a limit of its own stands in for the first of the recipe
        held = (name if name in densest else next(iter(densest)) for name in parts)
        kg = sum(kg for crop, kg in zip(held, parts.values(), strict=True) if crop == limited)
        most_kg = kg_per_l * measure.volume_l
        if kg > most_kg + ROUNDED_KG:
            what = f"{kg:.3f} kg of {limited or 'produce'} in a jar of {measure.volume_l:.3g} L"
            wanted = f"at most {most_kg:.3f} kg, the upper end that is published for {product!r}"
            desk.add(row, f"{what}: a denser pack than was tested", wanted)
