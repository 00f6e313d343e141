"""Timing shared by the benchmarks: the best of a few runs, and a table of ratios."""

import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from importlib.resources import files
from typing import Generic, TypeVar

import model
from model.season.season import Season

T = TypeVar("T")
SPRING = date(2027, 3, 15)


def demo() -> Season:
    """Give the demo household."""
    return model.read_season(str(files("demo_data") / "alder_lane"))


@dataclass(frozen=True)
class Timed(Generic[T]):
    """What some work gave, and the seconds of its quickest run."""

    value: T
    seconds: float


def best_of(runs: int, work: Callable[[], T]) -> Timed[T]:
    """Do some work a few times."""
    quickest = float("inf")
    for _ in range(runs):
        began = time.perf_counter()
        value = work()
        quickest = min(quickest, time.perf_counter() - began)
    return Timed(value, quickest)


def say(what: str, measured: str, target: str, *, reached: bool) -> None:
    """Print one line of the table."""
    print(f"{what:<58} {measured:>22}   target {target:<18} {'yes' if reached else 'NOT REACHED'}")
