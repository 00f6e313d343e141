"""The planner without a browser: ``python -m model plan|check|process``.

Exit codes: 0 done, 2 faults in the notes or in the command, 3 a jar is refused.
"""

import argparse
import json
import sys
from collections.abc import Sequence
from datetime import date

from model.case import make_case
from model.errors import NoTestedProcess, PlanningError
from model.intake.gate import read_season
from model.outlook.process_card import process_card
from model.outlook.report import plan_report
from model.outlook.text import plan_text
from model.planning import SEED, YEARS, plan_season
from model.safety.altitude import altitude_ft
from model.season.season import Season

DONE, FAULTY, REFUSED = 0, 2, 3


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    parser = _parser()
    given = parser.parse_args(arguments)
    if not hasattr(given, "run"):
        parser.print_help()
        return DONE
    try:
        code: int = given.run(given)
    except PlanningError as error:
        print(error, file=sys.stderr)
        return FAULTY
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m model",
        description="Plan a garden's harvest into the pantry's jars, and see how long they last.",
    )
    commands = parser.add_subparsers(title="commands")
    plan = commands.add_parser("plan", help="plan a season from a folder or zip of CSV tables")
    plan.add_argument("folder", help="folder or zip of the household's tables")
    plan.add_argument("--json", action="store_true", help="print one JSON object")
    plan.add_argument("--today", type=_day, help="year-month-day; else the notes' own day")
    plan.add_argument("--years", type=_years, default=YEARS, help="simulated years to live through")
    plan.add_argument("--seed", type=int, default=SEED, help="of the simulated years")
    plan.set_defaults(run=_plan)
    check = commands.add_parser("check", help="list every fault of a season's tables")
    check.add_argument("folder", help="folder or zip of the household's tables")
    check.add_argument("--today", type=_day, help="year-month-day; else the notes' own day")
    check.set_defaults(run=_check)
    process = commands.add_parser("process", help="look up a tested canning process")
    process.add_argument("--product", required=True, help="the tested product")
    process.add_argument(
        "--method",
        required=True,
        help="boiling water; pressure, dial gauge; pressure, weighted gauge",
    )
    process.add_argument("--pack", required=True, help="hot or raw")
    process.add_argument("--jar", required=True, help="pint, quart, 500 ml ...")
    process.add_argument("--altitude", help='such as "762 m" or "2500 ft"')
    process.add_argument("--json", action="store_true", help="print one JSON object")
    process.set_defaults(run=_process)
    return parser


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is not a date; write 2027-03-15") from None


def _years(text: str) -> int:
    years = int(text) if text.isdigit() else 0
    if not 1 <= years <= 20_000:
        raise argparse.ArgumentTypeError(f"{text!r}: give 1 to 20000 years")
    return years


def _today(season: Season, given: date | None) -> date:
    """Take the day asked for, the day the notes name, or, at this edge only, the clock."""
    return given or season.notes_date or date.today()  # noqa: DTZ011 - a kitchen's own day


def _plan(given: argparse.Namespace) -> int:
    season = read_season(given.folder)
    today = _today(season, given.today)
    planned = plan_season(season, today, years=given.years, seed=given.seed)
    if given.json:
        print(json.dumps(plan_report(planned), indent=1, allow_nan=False))
    else:
        print(plan_text(planned))
    return DONE


def _check(given: argparse.Namespace) -> int:
    season = read_season(given.folder)
    make_case(season, _today(season, given.today))
    rows = f"{len(season.plantings)} plantings, {len(season.preserves)} preserves"
    print(f"{season.household}: no faults ({rows}).")
    return DONE


def _process(given: argparse.Namespace) -> int:
    try:
        altitude = altitude_ft(given.altitude) if given.altitude else None
        card = process_card(given.product, given.method, given.pack, given.jar, altitude)
    except ValueError as error:
        print(error, file=sys.stderr)
        return FAULTY
    except NoTestedProcess as error:
        if given.json:
            refusal = {"refused": True, "reason": error.reason, "alternatives": list(error.ways)}
            print(json.dumps(refusal, indent=1))
        print(f"Refused: {error.reason}.", file=sys.stderr)
        for way in error.ways:
            print(f"  - {way}", file=sys.stderr)
        return REFUSED
    print(json.dumps(card.values(), indent=1) if given.json else card.text())
    return DONE


if __name__ == "__main__":
    sys.exit(main())
