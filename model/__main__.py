"""The planner without a browser: ``python -m model plan|check|process``.

Exit codes: 0 done, 2 faults in the notes or in the command, 3 a jar is refused, 4 whoever
read the output stopped before its end.
"""

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from datetime import date

from model.case import make_case
from model.errors import NoTestedProcess, PlanningError
from model.intake.cells import read_day
from model.intake.gate import read_season
from model.outlook.process_card import process_card
from model.outlook.report import plan_report
from model.outlook.text import plan_text
from model.planning import SEED, YEARS, plan_season
from model.safety.altitude import altitude_ft
from model.safety.process_times import METHODS, PACKS
from model.season.season import Season

DONE, FAULTY, REFUSED, UNREAD = 0, 2, 3, 4


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    parser = _parser()
    given = parser.parse_args(arguments)
    if not hasattr(given, "run"):
        parser.print_help()
        return DONE
    try:
        code: int = given.run(given)
        sys.stdout.flush()
    except PlanningError as error:
        print(error, file=sys.stderr)
        return FAULTY
    except BrokenPipeError:
        # What is still held back must not fail again when Python ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        print("the output was closed before its end", file=sys.stderr)
        return UNREAD
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m model",
        description="Plan a garden's harvest into the pantry's jars, and see how long they last.",
        epilog="Each command explains itself: python -m model plan --help. Ends with 0 when all "
        "is well, 2 for faults in the notes or the command, 3 for a refused jar, 4 when the "
        "output is closed before its end.",
    )
    commands = parser.add_subparsers(title="commands", metavar="plan | check | process")
    plan = _command(commands, "plan", "plan a season from the household's tables", _plan)
    _add_season(plan)
    plan.add_argument("--json", action="store_true", help="print one JSON object")
    plan.add_argument(
        "--years", type=_years, default=YEARS, help=f"simulated years to live through ({YEARS})"
    )
    plan.add_argument(
        "--seed", type=_seed, default=SEED, help=f"that the years are drawn from ({SEED})"
    )
    _add_season(_command(commands, "check", "list every fault of a season's tables", _check))
    process = _command(commands, "process", "look up a tested canning process", _process)
    process.add_argument("--product", required=True, help="the tested product")
    process.add_argument("--method", required=True, help="; ".join(METHODS))
    process.add_argument("--pack", required=True, help=" or ".join(PACKS))
    process.add_argument("--jar", required=True, help="pint, quart, 500 ml ...")
    process.add_argument("--altitude", help='of the kitchen, such as "762 m" or "2500 ft"')
    process.add_argument("--json", action="store_true", help="print one JSON object")
    return parser


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    does: str,
    run: Callable[[argparse.Namespace], int],
) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=does, description=f"{does.capitalize()}.")
    command.set_defaults(run=run)
    return command


def _add_season(command: argparse.ArgumentParser) -> None:
    command.add_argument("folder", help="folder or zip of the CSV tables that the README lists")
    command.add_argument(
        "--today", type=_day, help="year-month-day; else the notes' own day, else today"
    )


def _day(text: str) -> date:
    try:
        return read_day(text)
    except ValueError as error:
        found, wanted = error.args
        raise argparse.ArgumentTypeError(f"it {found}; {wanted}") from None


def _years(text: str) -> int:
    return _whole(text, 1, 20_000)


def _seed(text: str) -> int:
    return _whole(text, 0, 2**32 - 1)


def _whole(text: str, least: int, most: int) -> int:
    number = int(text) if text.isdecimal() and len(text) <= 12 else -1
    if not least <= number <= most:
        raise argparse.ArgumentTypeError(f"{text!r}: give a whole number from {least} to {most}")
    return number


def _today(season: Season, given: date | None) -> date:
    """Take the day asked for, the day the notes name, or, at this edge only, the clock.

    A day before or after all seasons is taken, but said so on standard error.
    """
    today = given or season.notes_date or date.today()  # noqa: DTZ011 - a kitchen's own day
    first, last = season.garden_seasons[0].begins, season.garden_seasons[-1].ends
    if not first <= today <= last:
        side = "before the first" if today < first else "after the last"
        print(f"Note: {today} lies {side} season ({first} to {last}).", file=sys.stderr)
    return today


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
