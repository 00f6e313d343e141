"""The book of the shelf: what came, what left, and what a count says instead.

A count stands for the end of its day and overrules the book; what it differs by is booked as
unknown, never as eating. Only what is known to have been taken of what it found comes after it; a
new count of that day, which finds something else, has seen that as well. Canned jars come onto the
shelf when their seals have been looked at, everything else when it is put up; those lost before
that never come. Oldest goes first, and nothing falls below none: what was taken beyond the book
had been there unknown.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from model.season.kitchen import Counted
from model.season.record import EATEN, GIVEN, LOST, WHYS, Taken
from model.season.season import Season
from model.season.unseen_seals import canned_names, count_days, lost_unseen

PUT_UP, COUNTED = "put up", "counted"
# Jars, packs, kg or litres: counts that differ by less are one.
SAME_COUNT = 1e-3
_ORDER = (PUT_UP, *WHYS, COUNTED)


@dataclass(frozen=True, slots=True)
class Standing:
    """What stands on the shelf of one preserve and making; ``since`` is when that was seen."""

    preserve: str
    put_up: date
    units: float
    since: date


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the book: what came (+) or left (-), what is unknown of it, what is left."""

    day: date
    kind: str
    units: float
    unknown: float
    left: float


@dataclass(frozen=True, slots=True)
class Movement:
    """What happened to one preserve over a stretch of days; all but the ends are sums.

    ``left`` = ``opening`` + ``came`` - ``eaten`` - ``given`` - ``lost`` + ``unknown``.
    """

    opening: float
    came: float
    eaten: float
    given: float
    lost: float
    unknown: float
    left: float


@dataclass(frozen=True, slots=True)
class Ledger:
    """The book of one preserve up to a day; ``counted`` is its last count, if there was one.

    Amounts are in the preserve's units. ``found`` is what stands there and what was taken on the
    day of the last count after it.

    >>> book = model.ledgers(season, date(2027, 3, 15))["ketchup"]
    >>> book.units, book.counted
    (5.0, datetime.date(2027, 3, 13))
    >>> book.between(date(2026, 9, 1), date(2026, 9, 30)).came
    6.0
    """

    preserve: str
    entries: tuple[Entry, ...]
    standing: tuple[Standing, ...]
    counted: date | None
    found: tuple[Standing, ...]

    @property
    def units(self) -> float:
        """Give what stands there by the book."""
        return sum(standing.units for standing in self.standing)

    def count_of(self, day: date) -> float | None:
        """Give the units that a count of a day found; None where there was none on it."""
        found = (entry.left for entry in self.entries if entry.kind == COUNTED and entry.day == day)
        return next(found, None)

    @property
    def since_count(self) -> tuple[Entry, ...]:
        """Give the entries that the last count has not seen; all of them where there was none."""
        kinds = [entry.kind for entry in self.entries]
        last = len(kinds) - kinds[::-1].index(COUNTED) if COUNTED in kinds else 0
        return self.entries[last:]

    def between(self, begins: date, ends: date) -> Movement:
        """Sum the book from the morning of one day to the evening of another."""
        opening = next((e.left for e in reversed(self.entries) if e.day < begins), 0.0)
        inside = [entry for entry in self.entries if begins <= entry.day <= ends]
        sums: dict[str, float] = defaultdict(float)
        for entry in inside:
            sums[entry.kind] += entry.units
        return Movement(
            opening=opening,
            came=sums[PUT_UP],
            eaten=abs(sums[EATEN]),
            given=abs(sums[GIVEN]),
            lost=abs(sums[LOST]),
            unknown=sum(entry.unknown for entry in inside),
            left=inside[-1].left if inside else opening,
        )

    def lost_of_new(self, begins: date, ends: date) -> float:
        """Give how many of those that came within a stretch of days were lost in it.

        What stood there before goes first, as it is eaten first.
        """
        new, lost = 0.0, 0.0
        for entry in self.entries:
            if not begins <= entry.day <= ends:
                continue
            if entry.kind == PUT_UP:
                new += entry.units
            elif new > entry.left:
                lost += new - entry.left if entry.kind == LOST else 0.0
                new = entry.left
        return lost


@dataclass(frozen=True, slots=True)
class _Event:
    day: date
    kind: str
    units: float
    put_up: date
    rows: tuple[Counted, ...] = ()
    after_count: bool = False


@dataclass
class _Shelf:
    """The jars of one preserve while its book is read: makings, oldest first."""

    makings: list[Standing] = field(default_factory=list)

    @property
    def units(self) -> float:
        return sum(making.units for making in self.makings)

    def add(self, made: Standing) -> None:
        self.makings = sorted([*self.makings, made], key=lambda making: making.put_up)

    def take(self, units: float) -> None:
        """Take the oldest first, as far as there is any."""
        left = []
        for making in self.makings:
            gone = min(making.units, units)
            units -= gone
            if making.units > gone:
                rest = making.units - gone
                left.append(Standing(making.preserve, making.put_up, rest, making.since))
        self.makings = left


def ledgers(season: Season, today: date) -> dict[str, Ledger]:
    """Write up the book of every preserve to the evening of a day.

    >>> len(model.ledgers(season, date(2027, 3, 15))) == len(season.preserves)
    True
    """
    events: dict[str, list[_Event]] = {preserve.name: [] for preserve in season.preserves}
    _came(season, today, events)
    counts, never_came = _counts(season, today), set(lost_unseen(season, today))
    for taken in season.record.taken:
        if taken.day <= today and taken not in never_came:
            gone = _Event(taken.day, taken.why, -taken.units, taken.day)
            late = _of_that_count(taken, counts[taken.day, taken.preserve])
            events[taken.preserve].append(replace(gone, after_count=late))
    for gift in season.gifts:
        if gift.day <= today:
            events[gift.preserve].append(_Event(gift.day, GIVEN, -gift.units, gift.day))
    for (day, name), rows in counts.items():
        if not rows:
            continue
        whole = sum(row.units for row in rows)
        events[name].append(_Event(day, COUNTED, whole, day, tuple(rows)))
    return {name: _written_up(name, own) for name, own in events.items()}


def stock(season: Season, today: date) -> tuple[Standing, ...]:
    """List what stands on the shelf by the book: the last count, and what came and left since."""
    return tuple(s for own in ledgers(season, today).values() for s in own.standing)


def _of_that_count(taken: Taken, rows: Sequence[Counted]) -> bool:
    """Say whether something was taken of what the count of its day found, as that stands now."""
    if taken.of_counted is None or not rows:
        return False
    return abs(sum(row.units for row in rows) - taken.of_counted) < SAME_COUNT


def after_its_count(season: Season, taken: Taken) -> bool:
    """Say whether something was taken on the day of a count, after it."""
    rows = [c for c in season.counts if (c.day, c.preserve) == (taken.day, taken.preserve)]
    return _of_that_count(taken, rows)


def _counts(season: Season, today: date) -> dict[tuple[date, str], list[Counted]]:
    counts: dict[tuple[date, str], list[Counted]] = defaultdict(list)
    for count in season.counts:
        if count.day <= today:
            counts[count.day, count.preserve].append(count)
    return counts


def _came(season: Season, today: date, events: dict[str, list[_Event]]) -> None:
    """Book what was put up, canned jars by what each look at their seals changed."""
    counts, canned = count_days(season, today), canned_names(season)
    looks: dict[str, list[tuple[date, float]]] = defaultdict(list)
    for check in season.record.seal_checks:
        if check.checked <= today:
            looks[check.batch].append((check.checked, check.sealed))
    for batch in season.record.batches:
        name = batch.preserve
        if name not in canned:
            if batch.put_up <= today:
                came = _Event(batch.put_up, PUT_UP, batch.filled, batch.put_up)
                events[name].append(came)
            continue
        sealed = 0.0
        for n, (day, now) in enumerate(sorted(looks[batch.code], key=lambda look: look[0])):
            if n or not counts[name].saw(batch, day):
                kind = LOST if n and now < sealed else PUT_UP
                events[name].append(_Event(day, kind, now - sealed, batch.put_up))
            sealed = now


def _written_up(name: str, events: list[_Event]) -> Ledger:
    shelf, entries, counted, left = _Shelf(), list[Entry](), None, 0.0
    found: list[Standing] | None = None
    for event in sorted(events, key=lambda e: (e.day, e.after_count, _ORDER.index(e.kind))):
        before = left
        if not event.after_count:
            found = None
        elif found is None:
            found = shelf.makings
        if event.kind == COUNTED:
            shelf.makings = sorted(
                (
                    Standing(name, row.put_up, row.units, event.day)
                    for row in event.rows
                    if row.units
                ),
                key=lambda making: making.put_up,
            )
            units, unknown = 0.0, shelf.units - before
            counted = event.day
        elif event.units >= 0:
            if event.units:
                shelf.add(Standing(name, event.put_up, event.units, event.day))
            units, unknown = event.units, 0.0
        else:
            shelf.take(-event.units)
            units, unknown = event.units, max(0.0, -event.units - before)
        left = shelf.units
        entries.append(Entry(event.day, event.kind, units, unknown, left))
    standing = tuple(shelf.makings)
    return Ledger(name, tuple(entries), standing, counted, tuple(found or standing))
