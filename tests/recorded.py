"""The tiny season with things written down while it ran, for tests of the record."""

from dataclasses import replace
from datetime import date, datetime

from model.season.kitchen import Counted
from model.season.record import EATEN, Batch, Record, SealCheck, Taken
from model.season.season import Season
from tests.small_season import small_season

JARS, PACKS = "whole tomatoes", "frozen beans"


def recorded(
    *,
    batches: tuple[Batch, ...] = (),
    checks: tuple[SealCheck, ...] = (),
    taken: tuple[Taken, ...] = (),
    counts: tuple[Counted, ...] = (),
) -> Season:
    """Give the tiny season with these records, and no count but these."""
    season = small_season(stock=None)
    record = Record(batches=batches, seal_checks=checks, taken=taken)
    return replace(season, record=record, counts=counts)


def batch(
    code: str,
    put_up: date,
    filled: float,
    *,
    preserve: str = JARS,
    finished: datetime | None = None,
    lid_box: str = "",
    again_of: str = "",
) -> Batch:
    """Give a batch of jars."""
    return Batch(code, put_up, finished, preserve, filled, lid_box, again_of)


def took(day: date, units: float, why: str, *, preserve: str = JARS) -> Taken:
    """Give jars that left the shelf."""
    return Taken(day, preserve, units, why, "", "")


def count(day: date, units: float, *, preserve: str = JARS, put_up: date | None = None) -> Counted:
    """Give a count of one making."""
    return Counted(day, preserve, units, put_up or day)


def packs(
    made: float, eaten: float, *, on: date = date(2027, 12, 27), put_up: date = date(2027, 11, 1)
) -> Season:
    """Give packs put up on a day, some of them eaten on another."""
    return recorded(
        batches=(batch("F", put_up, made, preserve=PACKS),),
        taken=(took(on, eaten, EATEN, preserve=PACKS),),
    )
