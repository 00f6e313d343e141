"""Which ways of keeping a food there are, apart from a jar with no tested process."""

import re

from model.errors import NotInTables
from model.reference.lookup import crop, crop_names, fresh_per_kept, keeping, products
from model.reference.read import table

ACID_GROUPS = ("pickle", "relish", "spread")


def ways_that_remain(food: str) -> list[str]:
    """List the safe ways for a product or a crop: freeze, dry, pickle, ferment, root store.

    Freezing is always one of them.
    """
    ways = ["freeze"]
    for name in _crops_of(food):
        if fresh_per_kept("dry", name):
            ways.append("dry")
        ways.extend(
            f"tested recipe: {known}"
            for known, row in products().items()
            if row["group"] in ACID_GROUPS and name in row["crops"].split(";") and known != food
        )
        if fresh_per_kept("ferment", name):
            ways.append("ferment")
        if keeping("root store", name):
            ways.append("root store")
    return list(dict.fromkeys(ways))


def _crops_of(food: str) -> list[str]:
    row = products().get(food)
    if row is not None:
        return [name for name in row["crops"].split(";") if name]
    try:
        return [crop(food).name]
    except NotInTables:
        names = sorted(crop_names(), key=len, reverse=True)
        spoken = [name for name in names if re.search(rf"\b{re.escape(name)}", food.lower())]
        return [crop_names()[name] for name in spoken][:1]


def cautions_for(tags: set[str]) -> list[str]:
    """List the cautions that belong to a set of tags (methods, acidity), the general one first."""
    shown = tags | {"always"}
    return [row["caution"] for row in table("cautions") if row["shown_with"] in shown]
