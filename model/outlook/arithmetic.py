"""Sums written out from rounded numbers, so that whoever redoes one comes to what it says."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import TypeVar

# A number is written with its decimals, an operator as it is, a day by the household's form.
Part = float | str | date
Words = tuple[str | date, ...]
Unit = str | Callable[[float], str]
Written = TypeVar("Written")
TIMES, OVER, PLUS, LESS, POWER, OPENS, CLOSES = "x", "/", "+", "-", "^", "(", ")"
OPERATORS = frozenset((TIMES, OVER, PLUS, LESS, POWER, OPENS, CLOSES))
UP, DOWN = "rounded up", "rounded down"
NEVER_BELOW = "never below none"
MOST_DIGITS = 6
# What a rounding up or down forgives: the last bit of a sum is no jar.
BARELY = 1e-9
# Less is nothing, and is written so.
LEAST = 1e-4


def about(number: float) -> str:
    """Give a forecast to two significant figures, without needless noughts.

    >>> model.about(1234.5), model.about(0.1234), model.about(7.0)
    ('1,200', '0.12', '7')
    """
    if not math.isfinite(number) or number == 0:
        return "0"
    digits = 1 - math.floor(math.log10(abs(number)))
    rounded = round(number, digits)
    return (
        f"{rounded:,.0f}"
        if digits <= 0
        else f"{rounded:.{min(digits, 2)}f}".rstrip("0").rstrip(".")
    )


@dataclass(frozen=True, slots=True)
class Pen:
    """Writes sums with so many decimals; what is below one keeps two figures at least."""

    digits: int

    def rounded(self, number: float) -> float:
        """Give a number as it is written."""
        return round(number, self._decimals(number)) + 0.0

    def written(self, number: float) -> str:
        """Write a number without needless noughts."""
        text = f"{self.rounded(number):.{self._decimals(number)}f}"
        return text.rstrip("0").rstrip(".") if "." in text else text

    def _decimals(self, number: float) -> int:
        if LEAST < abs(number) < 1:
            return max(self.digits, 1 - math.floor(math.log10(abs(number))))
        return self.digits

    def sum(self, *parts: Part, unit: Unit, whole: str = "", floor: bool = False) -> "Sum":
        """Write a sum and work it out from what is written.

        ``unit`` names the result, or gives its name for a number. ``whole`` says how the result
        is rounded to a whole number, ``floor`` that it is never below none.
        """
        parts = tuple(float(part) if isinstance(part, int) else part for part in parts)
        result = _Reader([self.rounded(p) if isinstance(p, float) else p for p in parts]).sum()
        if whole:
            result = _whole(result, whole)
        result = max(0.0, result) if floor else result
        how = "".join(f", {one}" for one in (whole, NEVER_BELOW if floor else "") if one)
        named = unit if isinstance(unit, str) else unit(self.rounded(result))
        ends = f"{how} = {self.written(result)} {named}".rstrip()
        return Sum((*self._words(parts), ends), self.rounded(result))

    def _words(self, parts: tuple[Part, ...]) -> Words:
        """Join numbers and words to one text each between the days."""
        joined: list[str | date] = [""]
        last: Part = ""
        for part in parts:
            text = self.written(part) if isinstance(part, float) else part
            space = "" if joined == [""] or part == CLOSES or last == OPENS else " "
            last = part
            if isinstance(text, date):
                joined += [f"{joined.pop()}{space}", text, ""]
            else:
                joined.append(f"{joined.pop()}{space}{text}")
        return tuple(joined)


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum in words with days among them, and what it comes to as it is written there."""

    words: Words
    result: float


def _whole(number: float, how: str) -> float:
    if how == UP:
        return float(math.ceil(number - BARELY))
    return float(math.floor(number + BARELY))


def enough(write: Callable[[Pen], tuple[Written, bool]]) -> Written:
    """Write with the fewest decimals with which the sum comes to what it should.

    ``write`` gives what it wrote and whether that is so.
    """
    for digits in range(1, MOST_DIGITS):
        written, good = write(Pen(digits))
        if good:
            return written
    return write(Pen(MOST_DIGITS))[0]


@dataclass(slots=True)
class _Reader:
    """Works out numbers and operators by the usual rules; words say nothing."""

    parts: list[Part]
    _left: Iterator[Part] = field(init=False)
    _next: Part | None = field(init=False, default=None)

    def __post_init__(self) -> None:
        told = [p for p in self.parts if isinstance(p, float) or p in OPERATORS]
        self._left = iter(told)
        self._step()

    def _step(self) -> Part | None:
        taken, self._next = self._next, next(self._left, None)
        return taken

    def sum(self) -> float:
        total = self._product()
        while self._next in (PLUS, LESS):
            sign = 1.0 if self._step() == PLUS else -1.0
            total += sign * self._product()
        return total

    def _product(self) -> float:
        product = self._power()
        while self._next in (TIMES, OVER):
            if self._step() == TIMES:
                product *= self._power()
            else:
                product /= self._power()
        return product

    def _power(self) -> float:
        base = self._atom()
        if self._next == POWER:
            self._step()
            return float(base ** self._atom())
        return base

    def _atom(self) -> float:
        taken = self._step()
        if taken == OPENS:
            inside = self.sum()
            self._step()
            return inside
        if not isinstance(taken, float):
            raise TypeError(f"a sum with {taken!r} where a number should stand")
        return taken
