"""The rule that practitioners use, as a sum a person can redo.

``sealed jars needed = uses a week x weeks without fresh x jars a use, less carry-over``

It assumes level eating and an ordinary year, and knows nothing of hours, jars or harvest;
the plan stands beside it and says where and why it differs. Source of the arithmetic:
home-canning budgets of the 1940s to 1970s (tests/published/canning_budget.csv).
"""

import math
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class HandRule:
    """The sum of one preserve by hand, in its own units (jars, packs, kg, litres).

    ``uses_a_week`` are portions of it on the table in a week without fresh, ``carry_over``
    what will still stand there when the new crop begins (rounded down). ``loss_share`` is
    what of it does not seal, or shrinks and rots on the way (half of the weeks, on average).

    >>> rule = model.HandRule(
    ...     preserve="jam", unit="jar", uses_a_week=0.5, weeks_without_fresh=40,
    ...     portions_a_unit=8.0, carry_over=0, loss_share=0.025, begins=date(2027, 7, 5),
    ... )
    >>> rule.sealed_needed, rule.to_fill
    (3, 4)
    """

    preserve: str
    unit: str
    uses_a_week: float
    weeks_without_fresh: int
    portions_a_unit: float
    carry_over: int
    loss_share: float
    begins: date

    @property
    def units_a_use(self) -> float:
        """Give the jars that one portion takes."""
        return 1.0 / self.portions_a_unit

    @property
    def sealed_needed(self) -> int:
        """Give the sealed jars needed, rounded up, never below 0."""
        wanted = self.uses_a_week * self.weeks_without_fresh * self.units_a_use
        return max(0, math.ceil(wanted - self.carry_over - 1e-9))

    @property
    def to_fill(self) -> int:
        """Give the jars to fill so that so many seal: sealed / (1 - loss), rounded up."""
        return math.ceil(self.sealed_needed / (1.0 - self.loss_share) - 1e-9)
