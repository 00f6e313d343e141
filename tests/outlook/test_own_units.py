"""A household of US units reads the plan's tables in them; weights by the published pound."""

import re

import pandas as pd
import pytest

from model import PlannedSeason
from model.outlook.own_units import in_own_words
from model.outlook.text import plan_text


def test_each_row_is_told_in_the_unit_it_names() -> None:
    # exact: the international pound 0.45359237 kg, the foot 0.3048 m
    table = pd.DataFrame({"amount": [3.048, 9.290304, 4.0], "per": ["m of row", "m2", "plant"]})
    shown = in_own_words(table, "US")

    assert shown.iloc[:, 0].to_list() == pytest.approx([10.0, 100.0, 4.0])
    assert shown.iloc[:, 1].to_list() == ["ft of row", "ft²", "plant"]


def test_a_column_of_kilograms_is_told_in_pounds_under_their_name() -> None:
    shown = in_own_words(pd.DataFrame({"buy_kg": [4.5359237]}), "US")

    assert shown.columns.to_list() == ["Buy in (lb)"]
    assert shown.iloc[0, 0] == pytest.approx(10.0)


def test_a_us_household_s_plan_in_the_terminal_names_no_metric_unit(
    southern_plan: PlannedSeason,
) -> None:
    told = plan_text(southern_plan)

    assert " ft²" in told
    assert not re.search(r"\b(kg|m2|m²|litres?|m of row)(?!\w)", told)


def test_a_metric_household_s_plan_names_no_us_unit(spring_plan: PlannedSeason) -> None:
    assert not re.search(r"\b(lb|qt|ft|cu ft)\b|ft²", plan_text(spring_plan))
