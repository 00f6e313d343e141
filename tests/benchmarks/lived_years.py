"""Years lived all at once against the same years in plain Python, in time and memory.

``python -m tests.benchmarks.lived_years``. The plain years are those of tests/plain_years.py,
with which tests/agreement checks the answers.
"""

import resource
import time

import numpy as np

from model.case import make_case
from model.forecast.years import sampled_harvest
from model.optimization.make_plan import make_plan
from model.simulation.lived_years import Follower, LivedYears, live_through
from model.simulation.luck import draw_kitchen_luck
from tests.benchmarks.measuring import SPRING, best_of, demo, say
from tests.plain_years import Year, unsealed_of

MANY, FEW = 10_000, 100


def main() -> None:
    """Print the comparison."""
    case = make_case(demo(), SPRING)
    plan, arrays = make_plan(case).plan, case.arrays
    generator = np.random.default_rng(1)
    weeks = len(case.weeks)
    base_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    harvest = sampled_harvest(case.season, case.forecast, plan.amounts, MANY, generator)
    luck = draw_kitchen_luck(generator, MANY, arrays.sealed_share, weeks, case.appetite_cv)
    follower = Follower(plan, arrays, case.demand.cover_until, as_wanted=True)
    live_through(follower, harvest, luck)
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    many = best_of(3, lambda: live_through(follower, harvest, luck))

    few = live_through(follower, harvest[:FEW], luck)
    began = time.perf_counter()
    plain = [
        Year(
            plan,
            arrays,
            case.demand.cover_until.tolist(),
            harvest[y].tolist(),
            unsealed_of(luck, y).tolist(),
            luck.appetite[:, y].tolist(),
            as_wanted=True,
        ).live()
        for y in range(FEW)
    ]
    plain_seconds = (time.perf_counter() - began) * MANY / FEW
    print(f"{MANY:,} years of {weeks} weeks: {many.seconds:.2f} s, plain {plain_seconds:.0f} s")
    agrees = _agree(few, plain)
    ratio = plain_seconds / many.seconds
    say("plain Python / all at once", f"{ratio:.0f}x", ">= 80x", reached=ratio >= 80)
    say(f"{MANY:,} years", f"{many.seconds:.2f} s", "<= 1 s", reached=many.seconds <= 1)
    say(f"the same answers on {FEW} years", f"{agrees:.1%}", "100 %", reached=agrees == 1)
    grown = peak_mb - base_mb
    say("memory for them", f"{grown:.0f} MB", "<= 500 MB", reached=grown <= 500)


def _agree(lived: LivedYears, plain: list[Year]) -> float:
    """Give the share of years in which every shelf agrees to a fiftieth of a jar."""
    near = [
        np.abs(np.array(year.shelf).T - lived.shelf[y]).max() < 0.02 for y, year in enumerate(plain)
    ]
    return float(np.mean(near))


if __name__ == "__main__":
    main()
