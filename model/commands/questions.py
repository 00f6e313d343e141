"""``ways``, ``more``, ``hedges`` and ``glut``: questions to a plan, answered as tables."""

import argparse
import json
import sys
from dataclasses import asdict

import pandas as pd

from model.commands.given import DONE, FAULTY, planned
from model.outlook.report import records
from model.outlook.text import table_text
from model.outlook.ways_table import ways_table
from model.planning import PlannedSeason
from model.planting.value import planting_value
from model.planting.ways import Interval
from model.questions.glut import Glut, glut_table
from model.questions.hedges import hedge_table
from model.questions.one_more import one_more_table

FEW_YEARS = 20


def ways(given: argparse.Namespace) -> int:
    """Print every way of choosing what to plant, and what choosing well is worth."""
    made = planned(given, FEW_YEARS)
    table = ways_table(made, given.seed, years=given.years)
    value = planting_value(made.case, given.seed)
    if given.json:
        print(json.dumps({"ways": records(table), "value": asdict(value)}, indent=1))
        return DONE
    print(table_text(table, made.case.season.units))
    print(
        f"\nIn the program's own worth, portions a year: {value.in_sample:.0f} in the years it "
        f"chose for, {_words(value.out_of_sample)} in fresh ones, a gap of {_words(value.gap)}. "
        f"Choosing for many years is worth "
        f"{_words(value.stochastic)} more than for the mean year; knowing the year beforehand "
        f"would add {_words(value.perfect)}."
    )
    return DONE


def more(given: argparse.Namespace) -> int:
    """Print what one more of each limit would bring."""
    made = planned(given, FEW_YEARS)
    return _printed(one_more_table(made), made, json_wanted=given.json)


def hedges(given: argparse.Namespace) -> int:
    """Print the hedges of one food."""
    made = planned(given, FEW_YEARS)
    if given.food not in made.case.arrays.foods:
        known = ", ".join(made.case.arrays.foods)
        print(f"{given.food!r} is no food of these notes; they have {known}", file=sys.stderr)
        return FAULTY
    return _printed(hedge_table(made, given.food, given.seed), made, json_wanted=given.json)


def glut(given: argparse.Namespace) -> int:
    """Print what to do with a pile."""
    made = planned(given, FEW_YEARS)
    split = Glut(made, given.pile, given.bruised).split(given.hours)
    if given.json:
        print(json.dumps({"steps": records(glut_table(split)), "limit": split.limit}, indent=1))
        return DONE
    print(f"On the table on {made.case.today}:")
    print(table_text(glut_table(split), made.case.season.units))
    print(f"\nDone after {split.clock_minutes:.0f} minutes. What limits it: {split.limit}.")
    return DONE


def _printed(table: pd.DataFrame, made: PlannedSeason, *, json_wanted: bool) -> int:
    print(
        json.dumps(records(table), indent=1)
        if json_wanted
        else table_text(table, made.case.season.units)
    )
    return DONE


def _words(interval: Interval) -> str:
    return f"{interval.value:.0f} ({interval.low:.0f} to {interval.high:.0f})"
