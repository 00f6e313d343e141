"""Looking at seals, and what can still be done with a jar that did not seal, to the minute.

Lids are looked at 12 to 24 hours after the process (USDA AIB 410: after 12 hours; the guide
AIB 539: after 12 to 24). An unsealed jar is cooled, frozen or processed again within 24 hours;
after that at room temperature it is thrown away (Iowa State University Extension). Both are
hours that pass, not hours on a clock that is put forward or back.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta, tzinfo

from model.errors import NoTestedProcess
from model.reference.incidents import UNSEALED, Step, steps_for
from model.safety.process_times import process_time
from model.season.kitchen import Preserve
from model.season.record import Batch
from model.season.season import Season
from model.season.unseen_seals import ONE_DAY, unconfirmed

LOOK_AFTER = timedelta(hours=12)
LIMIT = timedelta(hours=24)
IN_TIME, TOO_LATE = "in time", "too late"
REPROCESSED = "reprocessed"


@dataclass(frozen=True, slots=True)
class SealTimes:
    """When the seals of a batch can be looked at, and when an unsealed jar is past saving.

    ``known`` is False where nobody wrote when the process ended: then it has surely been 12
    hours at ``look_from``, and may be 24 at ``limit``.
    """

    look_from: datetime
    limit: datetime
    known: bool

    def too_late_again(self, ended: datetime, minutes: float) -> bool:
        """Say whether unsealed jars went into a second process after the limit.

        Its time of so many minutes in the table began at the latest that long before it
        ``ended``. Raises ValueError when that names no moment.
        """
        return _moment(ended) - timedelta(minutes=minutes) > self.limit


@dataclass(frozen=True, slots=True)
class Way:
    """What can be done with an unsealed jar; ``until`` is None where it may be done any time."""

    step: Step
    until: datetime | None


def seal_hours(ended: datetime, zone: tzinfo | None) -> SealTimes:
    """Give the times of jars whose process ended at a moment, shown on the clock of a zone.

    A moment without an offset is one on that clock; an hour that comes twice counts as the first.
    ``zone`` is None where the machine's own rules hold.

    Sources: USDA AIB 410 and 539, Iowa State University Extension.

    >>> times = model.seal_hours(datetime(2027, 8, 16, 19, 40), UTC)
    >>> times.look_from.isoformat(), times.limit.isoformat()
    ('2027-08-17T07:40:00+00:00', '2027-08-17T19:40:00+00:00')
    """
    return SealTimes(_later(ended, LOOK_AFTER, zone), _later(ended, LIMIT, zone), known=True)


def _later(moment: datetime, hours: timedelta, zone: tzinfo | None) -> datetime:
    """Give the clock of a zone when so many hours have passed, whatever it was put to."""
    told = moment if moment.tzinfo else moment.replace(tzinfo=zone)
    return (told.astimezone(UTC) + hours).astimezone(zone)


def seal_times(batch: Batch, zone: tzinfo | None) -> SealTimes:
    """Give the times of a batch, shown on the clock of a zone; None where it is the machine's.

    Without the moment its process ended, the limit counts from the first moment of its day.

    Sources: USDA AIB 410 and 539, Iowa State University Extension.

    >>> batch = next(b for b in season.record.batches if b.preserve == "ketchup")
    >>> times = model.seal_times(batch, UTC)
    >>> times.known, times.look_from.isoformat(), times.limit.isoformat()
    (False, '2026-09-20T12:00:00+00:00', '2026-09-20T00:00:00+00:00')
    """
    if batch.finished is not None:
        return seal_hours(batch.finished, zone)
    first, last = (datetime.combine(d, time()) for d in (batch.put_up, batch.put_up + ONE_DAY))
    return SealTimes(_later(last, LOOK_AFTER, zone), _later(first, LIMIT, zone), known=False)


def seals_to_look_at(season: Season, now: datetime, zone: tzinfo | None) -> tuple[Batch, ...]:
    """List the batches whose seals are to be looked at now, the oldest first.

    Raises ValueError when ``now`` names no moment (it has no offset from UTC).

    >>> from dataclasses import replace
    >>> now = datetime(2026, 9, 20, 13, tzinfo=UTC)
    >>> unseen = replace(season, record=replace(season.record, seal_checks=()))
    >>> [batch.code for batch in model.seals_to_look_at(unseen, now, UTC)][-1]
    '2026-09-19 pickled beetroot'
    >>> model.seals_to_look_at(season, datetime(2026, 9, 20, 13), UTC)
    Traceback (most recent call last):
        ...
    ValueError: 2026-09-20 13:00:00 names no moment: it has no offset from UTC
    """
    today = _moment(now).astimezone(zone).date()
    due = [b for b in unconfirmed(season, today) if seal_times(b, zone).look_from <= now]
    return tuple(sorted(due, key=lambda batch: seal_times(batch, zone).limit))


def ways_for_unsealed(
    season: Season, batch: Batch, now: datetime, zone: tzinfo | None
) -> tuple[Way, ...]:
    """List what can be done now with the unsealed jars of a batch.

    From the limit on they are thrown away. Processing again takes a tested hot pack: where
    there is none, it is not offered. Raises ValueError when ``now`` names no moment.

    >>> batch = next(b for b in season.record.batches if b.preserve == "ketchup")
    >>> ways = model.ways_for_unsealed(season, batch, datetime(2026, 9, 19, 20, tzinfo=UTC), UTC)
    >>> [way.step.went for way in ways]
    ['refrigerated', 'frozen', 'reprocessed']
    >>> ways = model.ways_for_unsealed(season, batch, datetime(2026, 9, 20, 20, tzinfo=UTC), UTC)
    >>> [way.step.went for way in ways]
    ['thrown away']
    """
    limit = seal_times(batch, zone).limit
    if _moment(now) >= limit:
        return tuple(Way(step, None) for step in steps_for(UNSEALED, TOO_LATE))
    hot = _has_hot_pack(season, season.preserve(batch.preserve))
    return tuple(
        Way(step, limit) for step in steps_for(UNSEALED, IN_TIME) if hot or step.went != REPROCESSED
    )


def _has_hot_pack(season: Season, preserve: Preserve) -> bool:
    """Say whether a preserve can be filled hot by a tested process."""
    tested = preserve.process
    if tested is None:
        return False
    try:
        process_time(tested.product, tested.method, "hot", tested.jar, season.altitude_ft)
    except NoTestedProcess:
        return False
    return True


def _moment(now: datetime) -> datetime:
    if now.utcoffset() is None:
        raise ValueError(f"{now} names no moment: it has no offset from UTC")
    return now
