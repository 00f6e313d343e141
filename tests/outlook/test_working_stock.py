"""The jars of a preserve: each sum is redone from what is printed."""

import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model import HandRule, PlannedSeason
from model.outlook.arithmetic import LESS, OPENS, OVER, PLUS, TIMES, UP, Pen
from model.outlook.working import FROM_NOTES, FROM_SETTING, MOST_LINES, Working
from model.outlook.working_by_hand import by_hand, rule_lines
from model.outlook.working_stock import stock_workings
from tests.redone import comes_to, redo, results, told


def every_preserve(*plans: PlannedSeason) -> list[tuple[Working, ...]]:
    return [stock_workings(plan, r) for plan in plans for r in range(len(plan.by_hand))]


def test_the_working_of_every_preserve_comes_to_what_is_shown(
    spring_plan: PlannedSeason, southern_plan: PlannedSeason
) -> None:
    for plan, r in [(p, r) for p in (spring_plan, southern_plan) for r in range(len(p.by_hand))]:
        for working in stock_workings(plan, r):
            assert comes_to(working), told(working)
            assert len(working.lines) <= MOST_LINES


def test_the_plan_s_working_ends_in_the_plan_s_own_number(spring_plan: PlannedSeason) -> None:
    for r, workings in enumerate(every_preserve(spring_plan)):
        filled, *_, hand, left = (list(results(working)) for working in workings)

        assert filled[0] == spring_plan.plan.to_fill[r]
        assert hand[-1] == spring_plan.by_hand[r].to_fill
        assert left[-1] == math.floor(spring_plan.windows[r].carried_over + 1e-9)


def test_what_is_judged_in_the_hand_rule_is_marked(southern_plan: PlannedSeason) -> None:
    marked = [s for one in by_hand(southern_plan, 0).lines for s in one.sources if s.judgement]

    assert "lean_share" in {source.key for source in marked if source.kind == FROM_SETTING}


def test_every_line_of_notes_names_its_table(spring_plan: PlannedSeason) -> None:
    for workings in every_preserve(spring_plan):
        for source in [s for w in workings for one in w.lines for s in one.sources]:
            assert source.words
            assert source.kind != FROM_NOTES or source.key.endswith(".csv")


@given(
    uses=st.floats(0, 40),
    weeks=st.integers(0, 52),
    portions=st.floats(0.5, 40),
    carried=st.integers(0, 30),
)
def test_a_hand_rule_of_any_household_can_be_redone(
    uses: float, weeks: int, portions: float, carried: int
) -> None:
    rule = HandRule("p", "jar", uses, weeks, portions, carried, 0.025, date(2027, 8, 1))
    working = Working("p", "0 jars", rule_lines(rule, "metric"))
    *_, sealed, to_fill = results(working)

    # past the sixth decimal a rounding up may tip over: no kitchen sees that
    assert abs(sealed - rule.sealed_needed) <= (1 if _on_the_edge(rule) else 0)
    assert abs(to_fill - rule.to_fill) <= (2 if _on_the_edge(rule) else 0)


def _on_the_edge(rule: HandRule) -> bool:
    made = rule.uses_a_week * rule.weeks_without_fresh / rule.portions_a_unit
    return abs(made - round(made)) < 1e-3


@pytest.mark.parametrize(
    ("units", "last"), [("US", "10 steps x 2.205 lb each = 22.05 lb"), ("metric", "10 needed")]
)
def test_kilograms_are_told_in_pounds_where_the_household_weighs_so(units: str, last: str) -> None:
    rule = HandRule("p", "kg", 5.0, 20, 10.0, 0, 0.0, date(2027, 8, 1))

    assert rule_lines(rule, units)[-1].told(str).endswith(last)


def test_a_day_in_a_sum_is_written_as_the_household_writes_days() -> None:
    rule = HandRule("p", "jar", 5.0, 20, 10.0, 3, 0.0, date(2027, 8, 1))

    assert "3 left on 1 August, rounded up" in rule_lines(rule, "metric")[2].told(
        lambda when: f"{when.day} {when:%B}"
    )


def test_a_sum_is_worked_out_from_what_is_written() -> None:
    made = Pen(1).sum(3.14, "jars", TIMES, OPENS, 1.0, LESS, 0.0249, ")", OVER, 2.0, unit="halves")

    assert "".join(map(str, made.words)) == "3.1 jars x (1 - 0.025) / 2 = 1.5 halves"
    assert redo("3.1 jars x (1 - 0.025) / 2") == pytest.approx(1.51125)
    assert Pen(0).sum(2.4, PLUS, 2.4, unit="jars", whole=UP).result == 4


def test_a_sum_that_lacks_a_number_is_refused() -> None:
    with pytest.raises(TypeError, match="where a number should stand"):
        Pen(1).sum(2.0, PLUS, unit="jars")


def test_a_working_has_one_to_five_lines(spring_plan: PlannedSeason) -> None:
    lines = by_hand(spring_plan, 0).lines

    with pytest.raises(ValueError, match="8 lines"):
        Working("p", "1 jar", (*lines, *lines))
    with pytest.raises(ValueError, match="0 lines"):
        Working("p", "1 jar", ())
