"""What was written down while the seasons ran: containers, batches, seals, takings, ticks."""

from datetime import date, datetime

from model.intake.desk import Desk
from model.intake.rows import TypedRow
from model.season.record import (
    EATEN,
    LOST,
    Batch,
    Container,
    Meant,
    Record,
    SealCheck,
    Taken,
    Tick,
    Verdict,
)


def record(desk: Desk, last: date | None) -> Record:
    """Give the record of the seasons; nothing in it is after the ``last`` day of all seasons."""
    batches = _batches(desk, last)
    return Record(
        containers=_containers(desk),
        batches=batches,
        seal_checks=_seal_checks(desk, batches, last),
        taken=_taken(desk, last),
        meant=_meant(desk),
        verdicts=_verdicts(desk),
        ticks=_ticks(desk, last),
    )


def _preserve(desk: Desk, row: TypedRow) -> str | None:
    return desk.known(row, "preserve", "preserves.csv", "preserve")


def _containers(desk: Desk) -> tuple[Container, ...]:
    found = []
    for row in desk.of("containers.csv"):
        crop = desk.crop(row, row.text("crop")) if row.text("crop") else ""
        if crop is not None:
            found.append(Container(row.text("container"), crop, row.number("weighs")))
    return tuple(found)


def _batches(desk: Desk, last: date | None) -> tuple[Batch, ...]:
    found = []
    for row in desk.of("batches.csv"):
        preserve, day = _preserve(desk, row), row.day("put_up_on")
        again = row.text("again_of") and desk.known(row, "again_of", "batches.csv", "batch")
        finished = row.cells.get("finished_at")
        finished = finished if isinstance(finished, datetime) else None
        if finished and day and not 0 <= (finished.date() - day).days <= 1:
            wanted = "its process ends on that day or the next"
            desk.add(row, f"put up on {day}, finished at {finished:%Y-%m-%d %H:%M}", wanted)
        elif preserve and day and again is not None and desk.in_time(row, "put_up_on", last):
            code, box = row.text("batch"), row.text("lid_box")
            found.append(Batch(code, day, finished, preserve, row.number("filled"), box, again))
    return tuple(found)


def _seal_checks(
    desk: Desk, batches: tuple[Batch, ...], last: date | None
) -> tuple[SealCheck, ...]:
    by_code = {batch.code: batch for batch in batches}
    found = []
    for row in desk.of("seals.csv"):
        code, day = desk.known(row, "batch", "batches.csv", "batch"), row.day("checked_on")
        batch = by_code.get(code or "")
        if code is None or day is None or batch is None:
            continue
        sealed = row.number("sealed")
        if sealed > batch.filled:
            desk.add(row, f"{sealed:g} sealed, of {batch.filled:g} filled", "mend one of them")
        elif day < batch.put_up:
            desk.add(
                row, f"checked on {day}, before it was put up on {batch.put_up}", "mend a date"
            )
        elif desk.in_time(row, "checked_on", last):
            found.append(SealCheck(code, day, sealed, row.text("failed_went")))
    return tuple(found)


def _taken(desk: Desk, last: date | None) -> tuple[Taken, ...]:
    found = []
    for row in desk.of("taken.csv"):
        preserve, day = _preserve(desk, row), row.day("taken_on")
        batch = row.text("batch") and desk.known(row, "batch", "batches.csv", "batch")
        why, cause = row.text("why") or EATEN, row.text("cause")
        unfinished = bool(row.cells.get("unfinished"))
        if cause and why != LOST:
            desk.add(row, f"a cause ({cause}), but it was {why}", f"leave it out, or write {LOST}")
        elif unfinished and why != EATEN:
            desk.add(row, f"not finished, but it was {why}", f"leave it out, or write {EATEN}")
        elif preserve and day and batch is not None and desk.in_time(row, "taken_on", last):
            units, seen = row.number("jars"), row.cells.get("of_counted")
            of = seen if isinstance(seen, float) else None
            found.append(Taken(day, preserve, units, why, cause, batch, unfinished, of))
    return tuple(found)


def _meant(desk: Desk) -> tuple[Meant, ...]:
    found = []
    for row in desk.of("meant.csv"):
        preserve, day = _preserve(desk, row), row.day("planned_on")
        if preserve and day:
            found.append(Meant(day, preserve, row.number("sealed_jars")))
    return tuple(found)


def _verdicts(desk: Desk) -> tuple[Verdict, ...]:
    found = []
    for row in desk.of("verdicts.csv"):
        preserve = _preserve(desk, row)
        season = desk.known(row, "season", "seasons.csv", "season")
        if preserve and season:
            found.append(Verdict(season, preserve, row.text("verdict")))
    return tuple(found)


def _ticks(desk: Desk, last: date | None) -> tuple[Tick, ...]:
    found = []
    for row in desk.of("checklist.csv"):
        day = row.day("ticked_on")
        if day and desk.in_time(row, "ticked_on", last):
            found.append(Tick(day, row.text("item")))
    return tuple(found)
