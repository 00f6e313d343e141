"""Recipes against the tested ones. Sources: USDA AIB 539 guides 2, 3 and 4."""

import pytest

from tests.intake.faulty import faults
from tests.small_season import TABLES, small_season

INGREDIENTS = "preserve,crop,fresh_per_jar_kg\n"
SALSA = 'salsa,tomatoes,tomato,boiling water,"Salsa, hot tomato-pepper",hot,pint,0\n'


def with_weight(preserve: str, kg: str) -> str:
    """Give the preserves with a weight written for one of them."""
    heading, *rows = TABLES["preserves.csv"].splitlines()
    written = [f"{row},{kg if row.startswith(preserve) else ''}" for row in rows]
    return "\n".join([f"{heading},fresh_per_jar_kg", *written]) + "\n"


def test_a_low_acid_crop_does_not_get_into_a_plain_tested_product() -> None:
    (problem,) = faults(ingredients=INGREDIENTS + "whole tomatoes,onion,0.3\n")

    assert problem.where == "ingredients.csv row 2"
    assert "not tested with onion" in problem.found
    assert "tested with: tomato, paste tomato" in problem.wanted


def test_what_the_tested_recipe_names_may_be_written_down() -> None:
    season = small_season(
        preserves=TABLES["preserves.csv"] + SALSA,
        ingredients=INGREDIENTS + "salsa,onion,0.06\nwhole tomatoes,paste tomato,0.05\n",
    )

    assert {p.crop: p.kg for p in season.preserve("salsa").ingredients}["onion"] == 0.06
    assert season.preserve("whole tomatoes").crops == ("tomato", "paste tomato")


def test_more_of_one_crop_than_the_mixture_was_tested_with_is_refused() -> None:
    (problem,) = faults(
        preserves=TABLES["preserves.csv"] + SALSA,
        ingredients=INGREDIENTS + "salsa,onion,0.3\n",
    )

    assert "onion" in problem.found
    assert "denser pack" in problem.found


def test_a_frozen_mixture_is_free() -> None:
    season = small_season(ingredients=INGREDIENTS + "frozen beans,onion,0.1\n")

    assert season.preserve("frozen beans").crops == ("bush bean", "onion")


def test_a_denser_pack_than_was_tested_is_refused() -> None:
    """Whole tomatoes: 53 lb a bushel gave 15 quarts at the fewest (USDA AIB 539 guide 3)."""
    most_kg = 53 * 0.45359237 / 15 * 946 / 946.352946
    (problem,) = faults(preserves=with_weight("whole tomatoes", f"{most_kg * 1.01:.3f}"))

    assert problem.where == "preserves.csv row 2"
    assert "denser pack than was tested" in problem.found
    assert f"at most {most_kg:.2f}" in problem.wanted
    weight = f"{most_kg:.3f}"
    season = small_season(preserves=with_weight("whole tomatoes", weight))
    assert season.preserve("whole tomatoes").ingredients[0].kg == float(weight)


def test_further_crops_count_towards_the_density() -> None:
    (problem,) = faults(ingredients=INGREDIENTS + "whole tomatoes,paste tomato,0.5\n")

    assert "denser pack" in problem.found


@pytest.mark.parametrize("crop", ["blueberry", "blackcurrant", "redcurrant", "gooseberry"])
def test_berries_that_are_tested_hot_only_are_not_packed_raw(crop: str) -> None:
    """USDA AIB 539 guide 2: hot pack for blueberries, currants, gooseberries."""
    foods = TABLES["foods.csv"] + f"fruit,fruit,2,6,4,{crop}\n"
    row = f'berries,fruit,{crop},boiling water,"Berries, whole",%s,pint,100\n'
    (problem,) = faults(foods=foods, preserves=TABLES["preserves.csv"] + row % "raw")

    assert "no tested raw pack" in problem.found
    hot = small_season(foods=foods, preserves=TABLES["preserves.csv"] + row % "hot")
    assert hot.preserve("berries").process is not None


def test_a_berry_that_is_tested_hot_only_is_not_slipped_into_a_raw_pack() -> None:
    foods = TABLES["foods.csv"] + "fruit,fruit,2,6,4,raspberry\n"
    row = 'berries,fruit,raspberry,boiling water,"Berries, whole",raw,pint,100\n'
    (problem,) = faults(
        foods=foods,
        preserves=TABLES["preserves.csv"] + row,
        ingredients=INGREDIENTS + "berries,blueberry,0.05\n",
    )

    assert problem.file == "ingredients.csv"
