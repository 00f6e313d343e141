"""Which other jars are looked at when one of them is bad."""

from dataclasses import dataclass
from datetime import date

from model.season.record import Batch
from model.season.season import Season

SAME_BATCH, SAME_DAY, SAME_BOX = (
    "the same batch",
    "the same preserve, put up on the same day",
    "lids of the same box",
)
NOT_KNOWN = "the same preserve: it is not known which batch the jar was of"


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
    order = (SAME_BATCH, SAME_DAY, SAME_BOX)
    return tuple(sorted(mates, key=lambda mate: order.index(mate.why)))


def _why(bad: Batch, other: Batch) -> str:
    """Say why another batch is looked at; blank where nothing ties it to the bad one."""
    if bad.code in (other.code, other.again_of) or other.code == bad.again_of:
        return SAME_BATCH
    if (other.preserve, other.put_up) == (bad.preserve, bad.put_up):
        return SAME_DAY
    return SAME_BOX if bad.lid_box and other.lid_box == bad.lid_box else ""
