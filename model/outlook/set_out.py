"""What is set out before a preserving day: produce, jars, lids, acid and what the recipe adds."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from model.outlook.day_product import DayProduct
from model.reference.lookup import products
from model.safety.acid import acid_in_a_jar, acid_words
from model.season.kitchen import ProcessTime
from model.season.season import Season

# No table here holds these amounts: the tested recipe does, and they are never scaled down.
BY_THE_RECIPE = {
    "pickle": "vinegar of at least 5 %, salt, sugar and spices",
    "relish": "vinegar of at least 5 %, salt, sugar and spices",
    "spread": "sugar, and pectin where the recipe takes it",
    "fruit": "sugar, where it is to be sweetened",
    "pie filling": "sugar and the cook-type starch that the recipe names",
}
# Of tomatoes, those that are no low-acid mixture and get no acid into each jar: it is cooked in.
COOKED_IN = (
    "the acid of its recipe (vinegar of at least 5 %, or bottled lemon or lime juice), salt and "
    "spices"
)
FERMENT_SALT = "salt"
RECIPE_AMOUNT = "as much as the tested recipe says"


@dataclass(frozen=True, slots=True)
class SetOut:
    """One thing to set out; ``amount`` is None where only the tested recipe says how much.

    >>> made, _ = model.day_products(season, [model.Wanted("ketchup", 6)])
    >>> [thing.what for thing in model.set_out(season, made) if thing.unit == "kg"]
    ['paste tomato']
    """

    what: str
    amount: float | None
    unit: str
    note: str


def set_out(season: Season, made: Iterable[DayProduct]) -> tuple[SetOut, ...]:
    """List what is set out for some products: produce, jars and packs, lids, acid, the rest.

    >>> made, _ = model.day_products(season, [model.Wanted("crushed tomatoes", 7)])
    >>> [(thing.what, thing.unit) for thing in model.set_out(season, made)]
    [('paste tomato', 'kg'), ('850 ml jar', ''), ('new lids for 850 ml jar', ''), ('(210 ml) bottled
    lemon juice', 'tbsp'), ('citric acid, instead', 'level tsp')]
    """
    made = tuple(made)
    return (*_produce(made), *_jars(season, made), *_acid(made), *_recipe(made))


def _produce(made: tuple[DayProduct, ...]) -> list[SetOut]:
    kg: dict[str, float] = {}
    for product in made:
        for part in product.ingredients:
            kg[part.crop] = kg.get(part.crop, 0.0) + part.kg * product.units
    return [SetOut(crop, amount, "kg", "as picked, about") for crop, amount in kg.items()]


def _jars(season: Season, made: tuple[DayProduct, ...]) -> list[SetOut]:
    jars, lids = Counter[str](), Counter[str]()
    for product in made:
        if product.jar is not None:
            jars[product.jar.name] += product.units
            if product.card is not None:
                lids[product.jar.name] += product.units
    found = [SetOut(name, number, "", "") for name, number in jars.items()]
    known = {jar.name: jar.lids for jar in season.jars}
    for name, number in lids.items():
        there = known[name]
        short = there is not None and there < number
        note = f"the notes hold only {there}" if short else ""
        found.append(SetOut(f"new lids for {name}", number, "", note))
    return found


def _acid(made: tuple[DayProduct, ...]) -> list[SetOut]:
    found = []
    for product in made:
        if product.card is None or not product.card.process.acid_in_every_jar:
            continue
        process = product.card.process
        acid, words = acid_in_a_jar(process), acid_words(process)
        if acid is None:
            found.append(SetOut(f"acid for {product.name}", None, "", words))
            continue
        juice = SetOut(
            f"({acid.lemon_juice_ml * product.units} ml) bottled lemon juice",
            acid.lemon_juice_tbsp * product.units,
            "tbsp",
            f"for {product.name}: into each jar {words}",
        )
        found.append(juice)
        if acid.citric_acid_tsp is not None:
            level = float(acid.citric_acid_tsp * product.units)
            note = f"for {product.name}: instead of the lemon juice"
            found.append(SetOut("citric acid, instead", level, "level tsp", note))
    return found


def _recipe(made: tuple[DayProduct, ...]) -> list[SetOut]:
    found = []
    for product in made:
        process = product.card.process if product.card is not None else None
        if what := recipe_adds(product.method, process):
            found.append(SetOut(what, None, "", f"for {product.name}: {RECIPE_AMOUNT}"))
    return found


def recipe_adds(method: str, process: ProcessTime | None) -> str:
    """Name what a recipe adds in an amount that it alone says; blank for nothing."""
    if process is not None:
        product = products()[process.product]
        if (product["group"], product["acidity"]) == ("tomato", "high-acid"):
            return COOKED_IN
        return BY_THE_RECIPE.get(product["group"], "")
    return FERMENT_SALT if method == "ferment" else ""
