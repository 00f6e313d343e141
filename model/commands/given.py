"""What a command is given: days, whole numbers, a folder of tables, a pile."""

import argparse
import sys
from datetime import date
from pathlib import Path

from model.exchange.upload import read_upload
from model.intake.cells import read_day
from model.intake.folder import MOST_BYTES
from model.intake.gate import read_season, season_from_tables
from model.planning import SEED, YEARS, PlannedSeason, plan_season
from model.season.season import Season

DONE, FAULTY, REFUSED, UNREAD = 0, 2, 3, 4


def add_season(command: argparse.ArgumentParser) -> None:
    """Ask for the tables and the day."""
    command.add_argument("folder", help="folder or zip of the README's CSV tables, or a workbook")
    command.add_argument(
        "--today", type=_day, help="year-month-day; else the notes' own day, else today"
    )


def add_json(command: argparse.ArgumentParser) -> None:
    """Ask whether another program reads it."""
    command.add_argument("--json", action="store_true", help="print it as JSON")


def add_years(command: argparse.ArgumentParser, years: int = YEARS) -> None:
    """Ask for the simulated years."""
    command.add_argument(
        "--years", type=_years, default=years, help=f"simulated years to live through ({years})"
    )
    add_seed(command)


def add_seed(command: argparse.ArgumentParser) -> None:
    """Ask which years are drawn."""
    command.add_argument(
        "--seed", type=_seed, default=SEED, help=f"that the years are drawn from ({SEED})"
    )


def season_and_day(given: argparse.Namespace) -> tuple[Season, date]:
    """Read the tables; take the day asked for, the notes' day or, only here, the clock's.

    A day before or after all seasons is taken, but said so on standard error.
    """
    season = _season(given.folder)
    today = given.today or season.notes_date or date.today()  # noqa: DTZ011 - a kitchen's own day
    first, last = season.garden_seasons[0].begins, season.garden_seasons[-1].ends
    if not first <= today <= last:
        side = "before the first" if today < first else "after the last"
        print(f"Note: {today} lies {side} season ({first} to {last}).", file=sys.stderr)
    return season, today


def _season(path: str) -> Season:
    """Read a folder of tables; a file as an upload is read, a zip or a workbook."""
    try:
        with Path(path).open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError):
        return read_season(path)
    return season_from_tables(read_upload(content, Path(path).name))


def planned(given: argparse.Namespace, years: int) -> PlannedSeason:
    """Read the tables and plan the season."""
    season, today = season_and_day(given)
    return plan_season(season, today, years=years, seed=given.seed)


def kilograms(text: str) -> dict[str, float]:
    """Read a pile: ``tomato=20, bush bean=5``, in kilograms."""
    pile: dict[str, float] = {}
    for part in text.split(","):
        crop, _, kg = part.partition("=")
        try:
            pile[crop.strip()] = float(kg)
        except ValueError:
            wanted = "write crop=kilograms, as in: tomato=20, bush bean=5"
            raise argparse.ArgumentTypeError(f"{part.strip()!r}: {wanted}") from None
    return pile


def hours(text: str) -> float:
    """Read kitchen hours."""
    try:
        return float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r}: give hours, such as 4.5") from None


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
