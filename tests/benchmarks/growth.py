"""How time and memory grow with the household: 1, 2, 4 and 8 times, and with the years.

``python -m tests.benchmarks.growth``. Every size runs in a process of its own, so that its
memory is its own; every ratio is to the demo household in the same run.
"""

import resource
import subprocess
import sys
import time
from dataclasses import replace

import numpy as np

from model.case import make_case
from model.forecast.years import sampled_harvest
from model.optimization.make_plan import make_plan
from model.optimization.periods import in_periods
from model.season.season import Season
from model.simulation.lived_years import Follower, live_through
from model.simulation.luck import draw_kitchen_luck
from tests.benchmarks.measuring import SPRING, demo, say

SIZES = (1, 2, 4, 8)
YEARS = (1_000, 2_000, 4_000, 8_000)
# Weeks to a period: weeks are as fine as the plan's rules go, so they are the largest size.
SPANS = {1: 8, 2: 4, 4: 2, 8: 1}
MOST = 3.0


def copied(season: Season, copies: int, *, crops: bool, preserves: bool) -> Season:
    """Give the household with copies of its crops and plantings, or of its preserves."""
    grown = season
    for number in range(2, copies + 1):
        end = f" {number}"
        if crops:
            grown = replace(
                grown,
                beds=grown.beds + tuple(replace(b, name=b.name + end) for b in season.beds),
                crops=grown.crops + tuple(replace(c, name=c.name + end) for c in season.crops),
                foods=tuple(
                    replace(food, crops=food.crops + tuple(c + end for c in own.crops))
                    for food, own in zip(grown.foods, season.foods, strict=True)
                ),
                plantings=grown.plantings
                + tuple(replace(p, crop=p.crop + end, bed=p.bed + end) for p in season.plantings),
            )
        if preserves:
            again = tuple(replace(made, name=made.name + end) for made in season.preserves)
            grown = replace(grown, preserves=grown.preserves + again)
    return grown


def measured(what: str, size: int) -> None:
    """Do one size and print its seconds, megabytes and program."""
    season = demo()
    if what in ("crops", "preserves", "both"):
        season = copied(season, size, crops=what != "preserves", preserves=what != "crops")
    case = make_case(season, SPRING)
    if what == "weeks":
        case = in_periods(case, SPANS[size])
    began = time.perf_counter()
    plan = make_plan(case).plan
    if what == "years":
        began = time.perf_counter()
        generator, arrays = np.random.default_rng(1), case.arrays
        harvest = sampled_harvest(season, case.forecast, plan.amounts, size, generator)
        luck = draw_kitchen_luck(
            generator, size, arrays.sealed_share, len(case.weeks), case.appetite_cv
        )
        follower = Follower(plan, arrays, case.demand.cover_until, as_wanted=True)
        live_through(follower, harvest, luck)
    seconds = time.perf_counter() - began
    megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(seconds, megabytes, plan.report.variables, plan.report.constraints)


def main() -> None:
    """Print a table with a bar a line for every way to grow."""
    sizes = {"crops": SIZES, "preserves": SIZES, "both": SIZES, "weeks": SPANS, "years": YEARS}
    for what, every in sizes.items():
        before = None
        for size in every:
            command = [sys.executable, "-m", "tests.benchmarks.growth", what, str(size)]
            told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
            seconds, megabytes, columns, rows = map(float, told.split())
            bar = "#" * max(1, round(8 * seconds))
            print(
                f"{what:<10} {size:>5}x {columns:>9,.0f} x {rows:>7,.0f} {seconds:7.2f} s "
                f"{megabytes:6.0f} MB  {bar}"
            )
            if before is not None:
                ratio = seconds / before
                name = f"{what}: twice as many ({size})"
                say(name, f"{ratio:.2f}x", f"<= {MOST:g}x", reached=ratio <= MOST)
            before = seconds


if __name__ == "__main__":
    if len(sys.argv) == 3:
        measured(sys.argv[1], int(sys.argv[2]))
    else:
        main()
