"""The planning program of a case: its decisions, constraints and worth, put together."""

from collections.abc import Callable, Sequence

import numpy as np

from model.case import Case
from model.optimization.constraints import Constraints
from model.optimization.decisions import add_decisions
from model.optimization.harvest_constraints import beds_hold, held_while_good, picking_balance
from model.optimization.kitchen_constraints import (
    drying_rate,
    freezing_rate,
    jars_return,
    kitchen_time,
    lids_last,
    loads_half_full,
    loads_hold,
)
from model.optimization.need_constraints import (
    fresh_first,
    needs_met,
    no_more_than_wished,
    reserve_in_hand,
    shares_kept,
    wishes,
)
from model.optimization.objective import add_worth
from model.optimization.program import LinearProgram, assemble
from model.optimization.shelf_constraints import (
    eaten_while_good,
    places_hold,
    ready_to_eat,
    shelf_balance,
)
from model.optimization.variables import Variables

Family = Callable[[Case, Variables], Constraints]
RECOURSE: tuple[Family, ...] = (
    picking_balance,
    held_while_good,
    loads_hold,
    loads_half_full,
    kitchen_time,
    jars_return,
    lids_last,
    freezing_rate,
    drying_rate,
    shelf_balance,
    eaten_while_good,
    ready_to_eat,
    places_hold,
    needs_met,
    fresh_first,
    shares_kept,
    reserve_in_hand,
    wishes,
    no_more_than_wished,
)
FAMILIES = (beds_hold, *RECOURSE)


def planning_program(case: Case, wanted: Sequence[Family] = FAMILIES) -> LinearProgram:
    """Build the program of a case with some families of constraints, all of them as a rule.

    ``RECOURSE`` alone is the program of one year for areas that are chosen elsewhere.
    """
    variables = Variables()
    add_decisions(case, variables)
    add_worth(case, variables)
    families = [family(case, variables) for family in wanted]
    counted = np.concatenate([variables["loads"].columns, variables["put_up"].columns])
    return assemble(variables, families, whole=counted)
