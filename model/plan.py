"""A plan: what is grown, picked, put up and opened in which week, in kilograms and jars.

It stands alone: it can be stored, lived through or written by hand without a solver.
"""

from dataclasses import dataclass, fields

import numpy as np

from model.season.arrays import Floats
from model.season.weeks import Weeks


@dataclass(frozen=True, slots=True)
class SolverReport:
    """How a plan was found.

    ``bound`` is the worth that no plan can exceed, ``relative_gap`` the part of it that this
    plan may lie below the best.
    """

    status: str
    worth: float
    bound: float
    relative_gap: float
    variables: int
    constraints: int
    build_seconds: float
    solve_seconds: float


@dataclass(frozen=True, eq=False)
class Plan:
    """The decisions of a plan, week by week, for the expected harvest.

    Parameters
    ----------
    amounts : shape (B,), each planting in its own unit.
    before_kg : shape (C, H), picked before and still in hand, the newest last, of this week.
    harvest_kg, eaten_kg, spare_kg, on_hand_kg : shape (C, W).
    put_up, loads, opened, past, given, shelf : shape (R, W), units (jars, packs, kg, litres);
        ``shelf`` at each week's end, after losses.
    wanted, met, fresh : shape (F, W), portions wanted, met up to the want and beyond it,
        and met by fresh food.
    """

    weeks: Weeks
    amounts: Floats
    before_kg: Floats
    harvest_kg: Floats
    eaten_kg: Floats
    spare_kg: Floats
    on_hand_kg: Floats
    put_up: Floats
    loads: Floats
    opened: Floats
    past: Floats
    given: Floats
    shelf: Floats
    wanted: Floats
    met: Floats
    fresh: Floats
    report: SolverReport

    def __post_init__(self) -> None:
        """Make every array read-only and check that its weeks are those of the plan."""
        for field in fields(self):
            array = getattr(self, field.name)
            if isinstance(array, np.ndarray):
                by_week = array.ndim == 2 and field.name != "before_kg"
                if by_week and array.shape[1] != len(self.weeks):
                    raise ValueError(f"{field.name} does not run over {len(self.weeks)} weeks")
                array.flags.writeable = False

    @property
    def to_fill(self) -> Floats:
        """Give the whole jars (packs, kg, litres) to fill over the season; shape (R,)."""
        filled: Floats = np.ceil(self.put_up.sum(axis=1) - 1e-6)
        return np.maximum(filled, 0.0)

    @property
    def whole_batches(self) -> Floats:
        """Give what to fill each week in whole units; shape (R, W).

        A pack that stays half full one week is topped up in the next one, so the weeks sum to
        ``to_fill``.
        """
        reached = np.ceil(np.cumsum(self.put_up, axis=1) - 1e-6)
        batches: Floats = np.diff(np.maximum(reached, 0.0), axis=1, prepend=0.0)
        return batches
