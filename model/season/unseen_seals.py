"""Canned jars whose seals nobody has looked at: they are not on the shelf yet.

A count after the time for it has seen the jars itself, and settles their batch.
"""

from bisect import bisect_left
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, timedelta

from model.season.record import LOST, Batch, Taken
from model.season.season import Season

# Seals are looked at after 12 to 24 hours. A count later than that has seen the jars itself.
SEALS_SEEN = timedelta(days=2)
ONE_DAY = timedelta(days=1)


def unconfirmed(season: Season, today: date) -> tuple[Batch, ...]:
    """List the canned batches whose seals nobody has looked at: they are not counted as sure.

    A count after the time for it has seen the jars, and settles the batch; so does its loss.

    >>> [batch.preserve for batch in model.unconfirmed(season, date(2026, 9, 19))]
    ['ketchup', 'apple sauce', 'pickled beetroot']
    """
    counts = count_days(season, today)
    looked, canned = season.record.newest_checks(today), canned_names(season)
    lost = lost_of_batches(season, today)
    return tuple(
        batch
        for batch in season.record.batches
        if batch.put_up <= today
        and batch.preserve in canned
        and batch.code not in looked
        and lost[batch.code] < batch.filled
        and not counts[batch.preserve].saw(batch, today + ONE_DAY)
    )


def unseen_by_count(season: Season, day: date) -> tuple[Batch, ...]:
    """List the batches that wait for a look at their seals and that a count of a day leaves out.

    They are too fresh for it: a jar is no sure one before it has stood for its time.

    >>> [batch.preserve for batch in model.unseen_by_count(season, date(2026, 9, 19))]
    ['ketchup', 'apple sauce', 'pickled beetroot']
    """
    return tuple(batch for batch in unconfirmed(season, day) if batch.put_up + SEALS_SEEN > day)


def lost_unseen(season: Season, today: date) -> list[Taken]:
    """List what was lost of canned batches before anybody had looked at their seals."""
    canned = canned_names(season)
    lost = [
        taken
        for taken in season.record.taken
        if taken.batch and taken.why == LOST and taken.day <= today and taken.preserve in canned
    ]
    if not lost:
        return []
    looks: dict[str, date] = {}
    for check in season.record.seal_checks:
        looks[check.batch] = min(check.checked, looks.get(check.batch, check.checked))
    batches, counts = {b.code: b for b in season.record.batches}, count_days(season, today)
    return [
        taken
        for taken in lost
        if batches[taken.batch].preserve == taken.preserve
        and looks.get(taken.batch, date.max) > taken.day
        and not counts[taken.preserve].saw(batches[taken.batch], taken.day + _counted_first(taken))
    ]


def _counted_first(taken: Taken) -> timedelta:
    """Give the day by which a count of the same day comes before what was taken after it."""
    return timedelta(days=taken.of_counted is not None)


def lost_of_batches(season: Season, today: date) -> dict[str, float]:
    """Sum what each batch lost before anybody had looked at its seals, by its code."""
    lost: dict[str, float] = defaultdict(float)
    for taken in lost_unseen(season, today):
        lost[taken.batch] += taken.units
    return lost


def canned_names(season: Season) -> set[str]:
    """Name the preserves whose jars come onto the shelf when their seals have been looked at."""
    return {preserve.name for preserve in season.preserves if preserve.canned}


@dataclass
class CountDays:
    """When a preserve was counted, and when a count first named what was made on a day."""

    days: list[date] = field(default_factory=list)
    named: dict[date, date] = field(default_factory=dict)

    def saw(self, batch: Batch, before: date) -> bool:
        """Say whether a count before a day had seen a batch: it was late, or names its jars."""
        late = bisect_left(self.days, batch.put_up + SEALS_SEEN)
        return (late < len(self.days) and self.days[late] < before) or self.named.get(
            batch.put_up, before
        ) < before


def count_days(season: Season, today: date) -> dict[str, CountDays]:
    """Map each preserve that was counted by a day to the days of its counts."""
    found: dict[str, CountDays] = defaultdict(CountDays)
    for count in sorted(season.counts, key=lambda count: count.day):
        if count.day <= today:
            own = found[count.preserve]
            own.days.append(count.day)
            if count.units > 0 and count.put_up <= count.day:
                own.named.setdefault(count.put_up, count.day)
    return found
