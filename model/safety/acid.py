"""The acid that goes into every jar of what is borderline: tomatoes and figs."""

from model.reference.lookup import products
from model.reference.read import table
from model.season.kitchen import ProcessTime


def acid_words(process: ProcessTime) -> str:
    """Say how much acid a jar of the tested size takes; blank when the recipe adds none.

    A smaller jar takes the amount of the tested size too: more acid is never less safe.
    """
    if not process.acid_in_every_jar:
        return ""
    foods = (process.product, products()[process.product]["group"])
    for row in table("acid_amounts"):
        if row["food"] in foods and row["jar"] == process.jar:
            either = (
                f"{row['lemon_juice_tbsp']} tbsp ({row['lemon_juice_ml']} ml) bottled lemon juice"
            )
            if row["citric_acid_tsp"]:
                level = f"{row['citric_acid_tsp']} level tsp ({row['citric_acid_ml']} ml)"
                either += f", or {level} citric acid"
            return f"{either}, as for a {process.jar}"
    return "the amount of the tested recipe"
