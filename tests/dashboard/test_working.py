"""The sum of the hand rule, redone from what is printed."""

import math
import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dashboard.forms.working import rule_lines
from model import HandRule, PlannedSeason

NUMBER = r"[\d.]+(?:e-\d+)?"


def redone(lines: list[str]) -> tuple[int, int]:
    """Redo the sum from the printed factors alone: sealed jars needed, jars to fill."""
    uses, weeks = (float(x) for x in re.findall(NUMBER, lines[0])[:2])
    portions = float(re.search(rf"/ ({NUMBER}) in one", lines[1])[1])
    carried = float(re.search(r"less (\d+)", lines[2])[1])
    sealed = max(0, math.ceil(uses * weeks / portions - carried - 1e-6))
    lost = re.search(rf"\(1 - ({NUMBER}) that", " ".join(lines))
    return sealed, math.ceil(sealed / (1 - float(lost[1])) - 1e-9) if lost else sealed


def test_every_printed_sum_comes_to_its_number(
    spring_plan: PlannedSeason, southern_plan: PlannedSeason
) -> None:
    for plan in (spring_plan, southern_plan):
        for rule in plan.by_hand:
            lines = rule_lines(rule, "metric")

            assert redone(lines) == (rule.sealed_needed, rule.to_fill), rule
            assert len(lines) <= 5


@given(
    uses=st.floats(0, 40),
    weeks=st.integers(0, 52),
    portions=st.floats(0.5, 40),
    carried=st.integers(0, 30),
)
def test_a_sum_of_any_household_can_be_redone(
    uses: float, weeks: int, portions: float, carried: int
) -> None:
    rule = HandRule("p", "jar", uses, weeks, portions, carried, 0.025, date(2027, 8, 1))
    sealed, to_fill = redone(rule_lines(rule, "metric"))

    # past the sixth decimal a rounding up may tip over: no kitchen sees that
    assert abs(sealed - rule.sealed_needed) <= (1 if _on_the_edge(rule) else 0)
    assert abs(to_fill - rule.to_fill) <= (2 if _on_the_edge(rule) else 0)


def _on_the_edge(rule: HandRule) -> bool:
    made = rule.uses_a_week * rule.weeks_without_fresh / rule.portions_a_unit
    return abs(made - round(made)) < 1e-3


@pytest.mark.parametrize(("units", "last"), [("US", "10 kg = 22 lb"), ("metric", "10 needed")])
def test_kilograms_are_told_in_pounds_where_the_household_weighs_so(units: str, last: str) -> None:
    rule = HandRule("p", "kg", 5.0, 20, 10.0, 0, 0.0, date(2027, 8, 1))

    assert rule_lines(rule, units)[-1].endswith(last)
