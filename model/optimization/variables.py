"""The decisions: named blocks of columns, each with its axes."""

from dataclasses import dataclass

import numpy as np

from model.season.arrays import Bools, Floats, Ints

ABSENT = -1


@dataclass(frozen=True, eq=False)
class Block:
    """A family of decisions.

    ``index`` holds the column of each in the shape of its axes, or -1 where there is none
    (nothing can be put up before it is picked).
    """

    name: str
    axes: str
    index: Ints

    @property
    def columns(self) -> Ints:
        """List its columns."""
        columns: Ints = self.index[self.index != ABSENT]
        return columns

    def values(self, solution: Floats) -> Floats:
        """Give the solution in the shape of the block, 0 where there is no decision."""
        found = np.where(self.index == ABSENT, 0.0, solution[np.maximum(self.index, 0)])
        return np.asarray(found, dtype=float)


class Variables:
    """Columns of a program, gathered block by block; a name is taken once."""

    def __init__(self) -> None:
        """Begin without columns."""
        self.blocks: dict[str, Block] = {}
        self.count = 0
        self._lower: list[Floats] = []
        self._upper: list[Floats] = []
        self._worth: list[Floats] = []

    def add(
        self,
        name: str,
        axes: str,
        exists: Bools,
        *,
        lower: Floats | float = 0.0,
        upper: Floats | float = np.inf,
    ) -> Block:
        """Add one column where ``exists`` is true; bounds have its shape or are one number."""
        if name in self.blocks:
            raise ValueError(f"the decisions {name!r} are there already")
        if len(axes) != exists.ndim:
            raise ValueError(f"{name!r} has {exists.ndim} axes, not {axes!r}")
        index = np.full(exists.shape, ABSENT, dtype=np.int64)
        size = int(exists.sum())
        index[exists] = self.count + np.arange(size)
        self.count += size
        self._lower.append(np.broadcast_to(lower, exists.shape)[exists].astype(float))
        self._upper.append(np.broadcast_to(upper, exists.shape)[exists].astype(float))
        self._worth.append(np.zeros(size))
        self.blocks[name] = Block(name, axes, index)
        return self.blocks[name]

    def value(self, name: str, worth: Floats | float) -> None:
        """Add to the worth of one unit of each decision of a block."""
        block = self.blocks[name]
        place = list(self.blocks).index(name)
        self._worth[place] += np.broadcast_to(worth, block.index.shape)[block.index != ABSENT]

    def __getitem__(self, name: str) -> Block:
        """Give a block by name."""
        return self.blocks[name]

    @property
    def lower(self) -> Floats:
        """Give the lower bounds of all columns."""
        return np.concatenate(self._lower) if self._lower else np.zeros(0)

    @property
    def upper(self) -> Floats:
        """Give the upper bounds of all columns."""
        return np.concatenate(self._upper) if self._upper else np.zeros(0)

    @property
    def worth(self) -> Floats:
        """Give the objective: worth of one unit of each column."""
        return np.concatenate(self._worth) if self._worth else np.zeros(0)
