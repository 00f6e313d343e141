"""Which other jars are looked at when one of them is bad, until somebody has."""

from dataclasses import dataclass
from datetime import date

from model.season.ledger import ledgers
from model.season.record import SUSPECT, Batch
from model.season.season import Season
from model.season.unseen_seals import SEALS_SEEN, unconfirmed

SAME_BATCH, SAME_DAY, SAME_BOX = (
    "the same batch",
    "the same preserve, put up on the same day",
    "lids of the same box",
)
NOT_KNOWN = "the same preserve: it is not known which batch the jar was of"
_LIKELIEST = (SAME_BATCH, SAME_DAY, NOT_KNOWN, SAME_BOX)


@dataclass(frozen=True, slots=True)
class Mate:
    """A batch to look at, and why."""

    batch: Batch
    why: str


def batch_mates(season: Season, preserve: str, code: str, today: date) -> tuple[Mate, ...]:
    """List the canned batches to look at when a jar is suspect, the likeliest first.

    ``code`` is blank where the batch of the jar is not known: then every batch of the preserve
    is listed. A batch that is another one processed again counts as the same. Raises KeyError
    for a preserve or a batch that is not in the season.

    >>> [mate.batch.code for mate in model.batch_mates(season, "ketchup", "", date(2027, 3, 15))]
    ['2026-09-19 ketchup']
    """
    canned = [
        batch
        for batch in season.record.batches
        if batch.put_up <= today and season.preserve(batch.preserve).canned
    ]
    if not code:
        own = season.preserve(preserve).name
        return tuple(Mate(batch, NOT_KNOWN) for batch in canned if batch.preserve == own)
    bad = next((batch for batch in season.record.batches if batch.code == code), None)
    if bad is None:
        raise KeyError(code)
    mates = [Mate(batch, why) for batch in canned if (why := _why(bad, batch))]
    return tuple(sorted(mates, key=lambda mate: _LIKELIEST.index(mate.why)))


@dataclass(frozen=True, slots=True)
class ToLookAt:
    """A batch to look at, why, and the day on which the jar like it was found bad."""

    batch: Batch
    why: str
    noticed: date


def to_look_at(season: Season, today: date) -> tuple[ToLookAt, ...]:
    """List the batches that nobody has looked at since a jar like theirs was bad, likeliest first.

    A count is no such look: who counts jars does not press their lids. A later look at their
    seals is. Of what is all gone by the book, with no batch whose seals still wait, nothing is
    left to look at.

    >>> model.to_look_at(season, date(2027, 3, 15))
    ()
    """
    found: dict[str, ToLookAt] = {}
    looks = season.record.newest_checks(today)
    bad = [one for one in season.record.taken if one.cause == SUSPECT and one.day <= today]
    there = _still_there(season, today) if bad else set()
    for taken in bad:
        for mate in batch_mates(season, taken.preserve, taken.batch, today):
            if mate.batch.preserve not in there:
                continue
            code, look = mate.batch.code, looks.get(mate.batch.code)
            # of a fresh batch the look of that very day may be the one on the morning after
            settled = mate.batch.put_up + SEALS_SEEN < taken.day
            if look and (look.checked > taken.day or (settled and look.checked == taken.day)):
                continue
            if code not in found or found[code].noticed < taken.day:
                found[code] = ToLookAt(mate.batch, mate.why, taken.day)
    return tuple(sorted(found.values(), key=lambda one: _LIKELIEST.index(one.why)))


def _still_there(season: Season, today: date) -> set[str]:
    """Name the preserves of which some stands by the book, or waits for a look at its seals."""
    books = ledgers(season, today)
    waiting = {batch.preserve for batch in unconfirmed(season, today)}
    return {name for name, book in books.items() if book.units} | waiting


def _why(bad: Batch, other: Batch) -> str:
    """Say why another batch is looked at; blank where nothing ties it to the bad one."""
    if bad.code in (other.code, other.again_of) or other.code == bad.again_of:
        return SAME_BATCH
    if (other.preserve, other.put_up) == (bad.preserve, bad.put_up):
        return SAME_DAY
    return SAME_BOX if bad.lid_box and other.lid_box == bad.lid_box else ""
