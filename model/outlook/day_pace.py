"""How much later or earlier than the day sheet said a day goes, by what was written down."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime, timedelta

from model.season.season import Season


def delay(season: Season, day: date, done: Iterable[tuple[str, datetime | None]]) -> timedelta:
    """Give by how much the last finished load ended later than was said; less than 0 if earlier.

    Parameters
    ----------
    done : the preserve and the end of the process, in local clock time, of each load that is
        written down, in the order of the day; None where nothing was in a canner.
    """
    ended: dict[str, list[datetime]] = defaultdict(list)
    for batch in season.record.batches:
        if batch.put_up == day and batch.finished is not None:
            there = batch.finished.astimezone(season.zone)
            ended[batch.preserve].append(there.replace(tzinfo=None))
    known = {name: iter(sorted(moments)) for name, moments in ended.items()}
    late = timedelta()
    for name, said in done:
        real = next(known.get(name, iter(())), None)
        if said is not None and real is not None:
            late = real - said
    return late
