"""What the running season wrote down: batches, seals, what left the shelf, what was meant."""

from dataclasses import dataclass
from datetime import date, datetime

EATEN, GIVEN, LOST = WHYS = ("eaten", "given", "lost")
FREEZER_DIED, SUSPECT = "freezer died", "bulging, leaking or spurting"
CAUSES = (
    FREEZER_DIED,
    "shelf fell",
    "flood",
    "mice",
    SUSPECT,
    "let go later",
    "spoiled or past it",
)
WENT = ("refrigerated", "frozen", "reprocessed", "thrown away", "eaten")
RAN_OUT, RIGHT, TOO_MUCH, NOT_AGAIN = VERDICTS = (
    "ran out",
    "right",
    "too much",
    "not again",
)


@dataclass(frozen=True, slots=True)
class Container:
    """What the household picks into: kilograms of a crop in one; a blank crop is any crop."""

    name: str
    crop: str
    kg: float


@dataclass(frozen=True, slots=True)
class Batch:
    """Jars (packs, kg, litres) of one preserve filled on one day.

    ``finished`` is the moment the last load's process ended, with its offset from UTC; None
    where nobody wrote it. ``lid_box`` names the box of lids, ``again_of`` the batch whose
    unsealed jars were processed again.

    ``filled`` is in the preserve's units.

    >>> batch = season.record.batches[0]
    >>> batch.code, batch.filled
    ('2026-06-06 frozen peas', 3.0)
    """

    code: str
    put_up: date
    finished: datetime | None
    preserve: str
    filled: float
    lid_box: str
    again_of: str


@dataclass(frozen=True, slots=True)
class SealCheck:
    """How many jars of a batch were sealed on a day, and where those went that were not."""

    batch: str
    checked: date
    sealed: float
    went: str


@dataclass(frozen=True, slots=True)
class Taken:
    """Jars that left the shelf: eaten, given or lost, and the cause of a loss.

    ``batch`` is known of suspect jars, whose batch-mates are looked at too. ``unfinished`` says
    that part of each was thrown away after it had been opened. ``of_counted`` is what a count of
    that very day had found before; None where there was none, or it came after.

    ``units`` are the preserve's.

    >>> model.Taken(date(2027, 3, 15), "ketchup", 1.0, model.EATEN, cause="", batch="").unfinished
    False
    """

    day: date
    preserve: str
    units: float
    why: str
    cause: str
    batch: str
    unfinished: bool = False
    of_counted: float | None = None


@dataclass(frozen=True, slots=True)
class Meant:
    """The sealed jars of a preserve that a plan, kept on a day, wanted from the season."""

    day: date
    preserve: str
    units: float


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the household says of a preserve at the end of a season; one of ``VERDICTS``."""

    season: str
    preserve: str
    verdict: str


@dataclass(frozen=True, slots=True)
class Tick:
    """A point of the checklist before a preserving day that was ticked off on a day."""

    day: date
    item: str


@dataclass(frozen=True, slots=True)
class Record:
    """Everything written down while the seasons ran, apart from pickings, counts and gifts."""

    containers: tuple[Container, ...] = ()
    batches: tuple[Batch, ...] = ()
    seal_checks: tuple[SealCheck, ...] = ()
    taken: tuple[Taken, ...] = ()
    meant: tuple[Meant, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    ticks: tuple[Tick, ...] = ()

    def newest_checks(self, today: date) -> dict[str, SealCheck]:
        """Give the newest seal check of every batch to a day; of one day the last written."""
        newest: dict[str, SealCheck] = {}
        for check in self.seal_checks:
            known = newest.get(check.batch)
            if check.checked <= today and (known is None or known.checked <= check.checked):
                newest[check.batch] = check
        return newest
