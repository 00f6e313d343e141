"""Which ways of keeping a food there are, apart from a jar with no tested process."""

from model.reference.lookup import crop_names, fresh_per_kept, keeping, products
from model.reference.read import table
from model.reference.words import words

RECIPE = "tested recipe: "
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
            f"{RECIPE}{known}"
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
    return crops_named(food)


def crops_named(food: str) -> list[str]:
    """List the crops that a name holds, by any of their names; a longer name goes first."""
    left, named = words(food), []
    for name in sorted(crop_names(), key=lambda name: -len(words(name))):
        if words(name) <= left:
            named.append(crop_names()[name])
            left -= words(name)
    return named


def cautions_for(tags: set[str]) -> list[str]:
    """List the cautions that belong to a set of tags (methods, acidity), the general one first.

    Source: the reference table ``cautions``, each with its own.

    >>> model.cautions_for({"boiling water"})[1]
    'Water covers the jars by 25-30 mm (about 1 in) from start to end; top up with boiling water.'
    """
    shown = tags | {"always"}
    return [row["caution"] for row in table("cautions") if row["shown_with"] in shown]
