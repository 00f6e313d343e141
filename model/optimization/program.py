"""A linear program: variables, constraints and worth, ready for the solver."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import sparse

from model.optimization.constraints import Constraints
from model.optimization.variables import Variables
from model.season.arrays import Floats, Ints


@dataclass(frozen=True, eq=False)
class LinearProgram:
    """Maximise ``worth @ x`` where ``row_lower <= matrix @ x <= row_upper`` and x in bounds.

    ``whole`` lists the columns that must be whole numbers in a plan; the relaxation lets go
    of that. ``families`` gives the row of each constraint in its family's shape, or -1 where
    it binds nothing and was left out.
    """

    variables: Variables
    worth: Floats
    lower: Floats
    upper: Floats
    matrix: sparse.csr_array
    row_lower: Floats
    row_upper: Floats
    whole: Ints
    families: dict[str, Ints]

    @property
    def shape(self) -> tuple[int, int]:
        """Give rows and columns."""
        return len(self.row_lower), len(self.lower)


def assemble(
    variables: Variables, families: Sequence[Constraints], whole: Ints | None = None
) -> LinearProgram:
    """Stack the families of constraints into one program; a family's name is taken once.

    Rows without terms and rows without bounds are left out.
    """
    places: dict[str, Ints] = {}
    kept_rows, lowers, uppers = [], [], []
    count = 0
    for family in families:
        if family.name in places:
            raise ValueError(f"the constraints {family.name!r} are there already")
        rows = family.matrix(variables.count)
        binds = (np.diff(rows.indptr) > 0) & (np.isfinite(family.lower) | np.isfinite(family.upper))
        place = np.full(family.count, -1, dtype=np.int64)
        place[binds] = count + np.arange(int(binds.sum()))
        count += int(binds.sum())
        places[family.name] = place.reshape(family.shape)
        kept_rows.append(rows[np.flatnonzero(binds)])
        lowers.append(family.lower[binds])
        uppers.append(family.upper[binds])
    return LinearProgram(
        variables=variables,
        worth=variables.worth,
        lower=variables.lower,
        upper=variables.upper,
        matrix=sparse.csr_array(sparse.vstack(kept_rows, format="csr")),
        row_lower=np.concatenate(lowers),
        row_upper=np.concatenate(uppers),
        whole=np.zeros(0, dtype=np.int64) if whole is None else whole,
        families=places,
    )
