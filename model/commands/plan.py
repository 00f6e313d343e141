"""``plan`` and ``check``: a season's plan in words or as JSON, and the faults of its tables."""

import argparse
import json

from model.case import make_case
from model.commands.given import DONE, planned, season_and_day
from model.outlook.report import plan_report
from model.outlook.text import plan_text


def plan(given: argparse.Namespace) -> int:
    """Print the plan."""
    made = planned(given, given.years)
    if given.json:
        print(json.dumps(plan_report(made), indent=1, allow_nan=False))
    else:
        print(plan_text(made))
    return DONE


def check(given: argparse.Namespace) -> int:
    """Print that there are no faults; they are raised."""
    season, today = season_and_day(given)
    make_case(season, today)
    rows = f"{len(season.plantings)} plantings, {len(season.preserves)} preserves"
    print(f"{season.household}: no faults ({rows}).")
    return DONE
