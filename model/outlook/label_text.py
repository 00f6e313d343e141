"""The label of a batch: what is in the jar, its size, when and how it was made, where it stands."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from model.season.kitchen import Preserve
from model.season.record import Batch
from model.season.season import Season

# A name has at most 80 characters: what is left is the number of a further batch of the day.
LONGEST_CODE = 76


@dataclass(frozen=True, slots=True)
class Label:
    """What stands on the label of every jar (pack, bag, crock) of one batch.

    ``size`` names the jar or pack, and is empty for what stands in none. ``code`` is the name
    under which the batch is written down; ``method`` says how it was kept, never that it is safe.

    >>> label = model.label_for(season.preserve("ketchup"), date(2027, 9, 18), "2027-09-18 ketchup")
    >>> label.lines()
    ('ketchup', '435 ml jar, 2027-09-18', 'boiling water; larder shelves', '2027-09-18 ketchup')
    """

    product: str
    size: str
    made_on: date
    code: str
    method: str
    place: str

    def lines(self, write_day: Callable[[date], str] = date.isoformat) -> tuple[str, ...]:
        """Give the lines from the top; ``write_day`` writes the day as the household does.

        The code stands last and word for word, so that a jar is found again in the record.
        """
        made_on = write_day(self.made_on)
        return (
            self.product,
            f"{self.size}, {made_on}" if self.size else made_on,
            f"{self.method}; {self.place}",
            self.code,
        )


def label_of(season: Season, batch: Batch) -> Label:
    """Give the label of a batch that was written down; raises KeyError for an unknown preserve.

    >>> model.label_of(season, season.record.batches[0]).code
    '2026-06-06 frozen peas'
    """
    return label_for(season.preserve(batch.preserve), batch.put_up, batch.code)


def label_for(preserve: Preserve, made_on: date, code: str) -> Label:
    """Give the label of a batch of a preserve that is still to be made.

    >>> model.label_for(season.preserve("frozen peas"), date(2027, 6, 6), "peas 1").place
    'chest freezer'
    """
    size = preserve.jar or (preserve.unit if preserve.in_pieces else "")
    method = preserve.process.method if preserve.process else preserve.method
    return Label(preserve.name, size, made_on, code, method, preserve.place)


def free_codes(season: Season, made_on: date, preserve: str) -> Iterator[str]:
    """Give the names for the next batches of a preserve on a day, without end.

    Its day and its preserve, numbered from the second on; those in use are left out.

    >>> codes = model.free_codes(season, date(2027, 8, 16), "ketchup")
    >>> next(codes), next(codes)
    ('2027-08-16 ketchup', '2027-08-16 ketchup 2')
    """
    taken = {batch.code for batch in season.record.batches}
    plain, number = f"{made_on} {preserve}"[:LONGEST_CODE], 1
    while True:
        code = plain if number == 1 else f"{plain} {number}"
        if code not in taken:
            yield code
        number += 1


def labels_due(season: Season, today: date) -> tuple[tuple[Label, int], ...]:
    """Give the batches that may be labelled and how many labels each needs, the newest first.

    Of what is canned only the sealed jars, once somebody has looked at the seals; of anything
    else the packs that were filled, and one label where no pieces are counted.

    >>> label, number = model.labels_due(season, date(2027, 3, 15))[0]
    >>> label.code, number
    ('2026-10-17 sauerkraut', 1)
    """
    looked = season.record.newest_checks(today)
    found = []
    for batch in reversed(season.record.batches):
        number = batch.filled
        if season.preserve(batch.preserve).canned:
            number = looked[batch.code].sealed if batch.code in looked else 0.0
        if batch.put_up <= today and number > 0:
            pieces = number if season.preserve(batch.preserve).in_pieces else 1
            found.append((label_of(season, batch), max(1, int(pieces))))
    return tuple(sorted(found, key=lambda one: one[0].made_on, reverse=True))
