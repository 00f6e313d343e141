"""One named family of constraints: rows gathered term by term, misshapen input refused."""

from dataclasses import dataclass, field

import numpy as np
from scipy import sparse

from model.optimization.variables import ABSENT
from model.season.arrays import Floats, Ints


@dataclass(eq=False)
class Constraints:
    """Rows ``lower <= sum of terms <= upper`` in the shape of their axes.

    ``at`` gives the row of each term; where a column is absent (-1) the term is left out.
    """

    name: str
    axes: str
    shape: tuple[int, ...]
    _rows: list[Ints] = field(default_factory=list)
    _columns: list[Ints] = field(default_factory=list)
    _values: list[Floats] = field(default_factory=list)
    lower: Floats = field(default_factory=lambda: np.zeros(0))
    upper: Floats = field(default_factory=lambda: np.zeros(0))

    def __post_init__(self) -> None:
        """Refuse a shape that is not that of the axes."""
        if len(self.axes) != len(self.shape):
            raise ValueError(f"{self.name!r} has {len(self.shape)} axes, not {self.axes!r}")

    @property
    def count(self) -> int:
        """Count the rows."""
        return int(np.prod(self.shape, dtype=int))

    @property
    def index(self) -> Ints:
        """Number the rows of this family in its shape."""
        return np.arange(self.count).reshape(self.shape)

    def add(self, columns: Ints, coefficient: Floats | float, at: Ints | None = None) -> None:
        """Add ``coefficient * column`` to rows ``at`` (the rows of the same shape by default).

        Raises ValueError for shapes that do not fit together and for numbers that are none.
        """
        rows = self.index if at is None else at
        columns, rows = np.broadcast_arrays(columns, rows)
        try:
            values = np.broadcast_to(np.asarray(coefficient, dtype=float), columns.shape)
        except ValueError as error:
            raise ValueError(f"{self.name}: {error}") from error
        present = (columns != ABSENT) & (values != 0)
        if not np.isfinite(values[present]).all():
            raise ValueError(f"{self.name}: a coefficient is not a finite number")
        self._rows.append(rows[present])
        self._columns.append(columns[present])
        self._values.append(values[present])

    def between(self, lower: Floats | float, upper: Floats | float) -> "Constraints":
        """Bound the rows on both sides."""
        self.lower = np.broadcast_to(np.asarray(lower, dtype=float), self.shape).ravel()
        self.upper = np.broadcast_to(np.asarray(upper, dtype=float), self.shape).ravel()
        if np.isnan(self.lower).any() or np.isnan(self.upper).any():
            raise ValueError(f"{self.name}: a bound is not a number")
        return self

    def equal_to(self, right: Floats | float) -> "Constraints":
        """Bind the rows to a right-hand side."""
        return self.between(right, right)

    def at_most(self, right: Floats | float) -> "Constraints":
        """Bound the rows from above."""
        return self.between(-np.inf, right)

    def at_least(self, right: Floats | float) -> "Constraints":
        """Bound the rows from below."""
        return self.between(right, np.inf)

    def matrix(self, columns: int) -> sparse.csr_array:
        """Give the rows as a sparse matrix over all columns of the program."""
        if not self._rows:
            return sparse.csr_array((self.count, columns))
        triplets = (
            np.concatenate(self._values),
            (np.concatenate(self._rows), np.concatenate(self._columns)),
        )
        return sparse.csr_array(triplets, shape=(self.count, columns))
