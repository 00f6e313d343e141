"""How time grows with the household: more crops, more preserves, more years.

``python -m tests.benchmarks.growth``. Every ratio is to the demo household in the same run.
"""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import numpy as np

from model.case import Case, make_case
from model.forecast.years import sampled_harvest
from model.intake.folder import text_tables
from model.intake.gate import season_from_tables
from model.optimization.make_plan import make_plan
from model.reference.read import table
from model.season.season import Season
from model.simulation.lived_years import Follower, live_through
from model.simulation.luck import draw_kitchen_luck
from tests.benchmarks.measuring import SPRING, Timed, best_of, demo, say

MOST = 3.0


def more_crops(season: Season) -> Season:
    """Give the demo household with every crop of the reference tables in its garden."""
    folder = Path(str(files("demo_data") / "alder_lane"))
    texts = {path.name: path.read_text("utf-8") for path in folder.glob("*.csv")}
    grown = {crop.name for crop in season.crops}
    others = [row["crop"] for row in table("crops") if row["crop"] not in grown]
    known = {row["crop"]: row for row in table("yields")}
    texts["beds.csv"] += "further bed,200,\n"
    texts["foods.csv"] += f"further food,vegetable,3,10,3,,{';'.join(others)},\n"
    for crop in others:
        form = known[crop]["form"]
        amount = {"m2 of bed": "3,,", "plant": ",3,", "m of row": ",,3"}[known[crop]["per"]]
        dates = "2027-04-20,2027-05-20,2027-08-01"
        texts["plantings.csv"] += f"2027,{crop},{form},further bed,{dates},{amount},,,\n"
    return season_from_tables(text_tables((name, text.encode()) for name, text in texts.items()))


def more_preserves(season: Season) -> Season:
    """Give the demo household with a second one of every preserve."""
    again = tuple(replace(made, name=f"second {made.name}") for made in season.preserves)
    return replace(season, preserves=season.preserves + again)


def lived(case: Case, years: int) -> Timed[object]:
    """Sample and live through some years with the case's plan."""
    plan, arrays = make_plan(case).plan, case.arrays

    def work() -> object:
        generator = np.random.default_rng(1)
        harvest = sampled_harvest(case.season, case.forecast, plan.amounts, years, generator)
        luck = draw_kitchen_luck(generator, years, arrays.sealed_share, len(case.weeks), 0.12)
        return live_through(Follower(plan, arrays, case.demand.cover_until, True), harvest, luck)

    return best_of(2, work)


def main() -> None:
    """Print the table, with a bar a line."""
    season = demo()
    base = make_case(season, SPRING)
    seasons = {
        f"{len(season.crops)} crops, {len(season.preserves)} preserves": season,
        "every crop of the tables": more_crops(season),
        "twice the preserves": more_preserves(season),
    }
    seconds = {}
    for name, grown in seasons.items():
        case = make_case(grown, SPRING)
        made = best_of(2, lambda case=case: make_plan(case))
        report = made.value.plan.report
        seconds[name] = made.seconds
        print(
            f"{name:<34} {len(grown.crops):>3} crops {len(grown.preserves):>3} preserves "
            f"{report.variables:>7,} x {report.constraints:>6,} {made.seconds:6.2f} s  "
            f"{'#' * round(8 * made.seconds)}"
        )
    first, *others = seconds.items()
    for name, taken in others:
        ratio = taken / first[1]
        say(f"plan: {name}", f"{ratio:.2f}x", f"<= {MOST:g}x", reached=ratio <= MOST)
    before = None
    for years in (1_000, 2_000, 4_000, 8_000):
        taken = lived(base, years).seconds
        print(f"{years:>6,} years {taken:34.2f} s  {'#' * round(8 * taken)}")
        if before is not None:
            ratio = taken / before
            say(f"years: twice as many ({years:,})", f"{ratio:.2f}x", "<= 3x", reached=ratio <= 3)
        before = taken


if __name__ == "__main__":
    main()
