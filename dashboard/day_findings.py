"""What the preserving day says: its first sentence, its loads, what waits, what is refused."""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta, tzinfo

import pandas as pd

import model
from dashboard.units import in_own, units_of
from dashboard.words import about, capital, count, listed, morning_of
from model import DayProduct, DaySheet, Load, Refused, SetOut, Waiting

HANDS, CANNER, PROCESS = "hands", "canner", "process"
FOR_ALL = "All that is made today"


def clock(moment: datetime, begins: datetime) -> str:
    """Give a clock time, and the day where it is not the one on which work begins."""
    days = (moment.date() - begins.date()).days
    return f"{moment:%H:%M}" + {0: "", 1: " tomorrow"}.get(days, f" in {days} days")


def amount_of(product: DayProduct, number: float, units: str) -> str:
    """Say how many of a product, with the size where it is put up in jars or packs."""
    return f"{units_of(number, product.unit, units)} of {product.name}"


def day_headline(sheet: DaySheet) -> str:
    """Say when the day is over, what is done now, and what it leaves."""
    if not sheet.loads:
        if sheet.waiting:
            return f"**Nothing fits before bedtime at {sheet.bedtime:%H:%M}.** Begin earlier."
        return "**Nothing is to be put up today.** Say below what you want to make."
    loads = count(len(sheet.loads), "batch", "batches")
    left = [load for load in sheet.loads if load.number not in sheet.done]
    if not left:
        every = {1: "The batch is", 2: "Both batches are"}.get(len(sheet.loads), f"All {loads} are")
        return f"**{every} written down.** Let the jars stand untouched until tomorrow."
    begin = clock(sheet.begins, sheet.begins)
    finish = clock(sheet.finish, sheet.begins)
    written = f", {len(sheet.done)} written down" if sheet.done else ""
    words = f"**{loads} from {begin}{written}: done at {finish}.** "
    times = Counter(load.product.name for load in left)
    names = [f"{name}{f' ({number} batches)' * (number > 1)}" for name, number in times.items()]
    return words + f"In this order: {', then '.join(names)}."


def picture_title(sheet: DaySheet) -> str:
    """Say how many batches there are and when the last that is still to do is done."""
    loads = count(len(sheet.loads), "batch", "batches")
    if len(sheet.done) == len(sheet.loads):
        return f"{loads}, all written down"
    return f"{loads}, done at {clock(sheet.finish, sheet.begins)}"


def bedtime_words(sheet: DaySheet) -> str:
    """Warn of a day that runs past bedtime; blank where it does not."""
    if not sheet.late:
        return ""
    bed, ends = clock(sheet.bedtime, sheet.begins), clock(sheet.all_done, sheet.begins)
    words = f"All of it would be done at **{ends}**, past bedtime at {bed}. "
    if sheet.finish > sheet.bedtime:
        return words + (
            "Leave the last batches for tomorrow: jars that are hurried, or left in the canner "
            "overnight, are where it goes wrong."
        )
    return words + "What does not fit is left for tomorrow, whole: cut or filled, it cannot wait."


def waiting_words(waiting: Iterable[Waiting], units: str) -> list[str]:
    """Say what is left for another day, why, and how its produce may wait."""
    return [
        f"**{amount_of(one.product, one.units, units)}**: {one.why}. {_until(one)}"
        for one in waiting
    ]


def _until(one: Waiting) -> str:
    return f"Until then: {'; '.join(one.ways)}." if one.ways else ""


def refused_words(one: Refused) -> str:
    """Say what is refused, and the ways that remain."""
    return f"Refused: {one.name}: {one.reason}. Ways that remain: {', '.join(one.ways)}."


def load_words(load: Load, sheet: DaySheet, units: str) -> str:
    """Say what a load is, where it is done and when."""
    size = f", {load.product.jar.name}" if load.product.jar else ""
    where = f" · {load.canner.name}" if load.canner else ""
    begin, end = (clock(moment, sheet.begins) for moment in (load.begins, load.ends))
    when = "written down" if load.number in sheet.done else f"{begin} to {end}"
    what = amount_of(load.product, load.units, units)
    return f"**{load.number}. {what}**{size}{where} · {when}"


def step_words(load: Load, sheet: DaySheet, zone: tzinfo | None) -> list[str]:
    """Give the steps of a load with their clock times, one a line, the process by its figure.

    ``zone`` has the rules of the household's clock; None where they are the machine's.
    """
    parts = [
        f"**{clock(step.begins, sheet.begins)} {_phase(load, step.phase)}**"
        if step == load.process
        else f"{clock(step.begins, sheet.begins)} {step.phase}"
        for step in load.steps
    ]
    ends = clock(load.ends, sheet.begins)
    if load.process is None:
        return [*parts, f"{ends} done"]
    look = look_words(load.process.ends, sheet.begins, zone)
    return [*parts, f"{ends} lift out and let stand; look at the seals {look}"]


def look_words(ended: datetime, begins: datetime, zone: tzinfo | None) -> str:
    """Say when the seals of jars are looked at, and by when: nobody gets up at night for it.

    ``ended`` is when their process ended on the clock of ``zone``, the machine's where it is None.
    """
    times = model.seal_hours(ended, zone)
    morning, until = morning_of(times.look_from), clock(times.limit, begins)
    if morning == times.limit.date():
        until = f"{times.limit:%H:%M}"
    if morning is None:
        return f"from {clock(times.look_from, begins)}, before {until}"
    days = (morning - begins.date()).days
    named = {0: "this morning", 1: "tomorrow morning"}
    return f"{named.get(days, f'in the morning in {days} days')}, before {until}"


def now_words(sheet: DaySheet, now: datetime, units: str) -> list[tuple[str, str]]:
    """Give what is going on now and what comes next: a clock time, and words, each.

    At most one step a piece of equipment is going on; loads that are written down are over.
    """
    steps = [
        (step, load)
        for load in sheet.loads
        if load.number not in sheet.done
        for step in load.steps
        if step.ends > step.begins
    ]
    going = [(step, load) for step, load in steps if step.begins <= now < step.ends]
    coming = sorted((one for one in steps if one[0].begins > now), key=lambda one: one[0].begins)
    told = [
        (f"until {clock(step.ends, sheet.begins)}", _step_of(step.phase, load, units))
        for step, load in going
    ]
    told += [
        (f"at {clock(step.begins, sheet.begins)}", _step_of(step.phase, load, units))
        for step, load in coming[:1]
    ]
    return told


def _step_of(phase: str, load: Load, units: str) -> str:
    what = amount_of(load.product, load.units, units)
    return f"{_phase(load, phase)}: batch {load.number}, {what}"


def _phase(load: Load, phase: str) -> str:
    card = load.product.card
    return f"process {card.figure}" if card is not None and phase == PROCESS else phase


def set_out_words(things: Iterable[SetOut], units: str) -> list[str]:
    """Say what is set out, in the household's own units."""
    said = []
    for one in things:
        number = ""
        if one.amount is not None:
            own, unit = in_own(one.amount, one.unit, units)
            # a jar's name begins with a number of its own: 12 of 228 ml are no 12,228 ml
            number = f"**{about(own)} {unit}** " if unit else f"**{round(own)} x** "
        said.append(f"{number}{one.what}" + (f" ({one.note})" if one.note else ""))
    return said


def day_steps(steps: pd.DataFrame) -> pd.DataFrame:
    """Give the steps of a day sheet with what the chart draws and writes for them."""
    kinds = [
        HANDS if row.equipment == HANDS else PROCESS if row.phase == PROCESS else CANNER
        for row in steps.itertuples()
    ]
    first = ~steps["load"].duplicated()
    told = first | pd.Series(kinds, index=steps.index).eq(PROCESS)
    numbered = steps.assign(kind=kinds, number=steps["load"].astype(str).where(told, ""))
    return numbered.assign(room=_rooms(numbered[told]).reindex(steps.index, fill_value=1.0))


def _rooms(numbered: pd.DataFrame) -> pd.Series:
    """Give the part of the day from each number to the next one on the same equipment."""
    whole = numbered["stops"].max() - numbered["starts"].min()
    ordered = numbered.sort_values("starts", kind="stable")
    following = ordered.groupby("equipment")["starts"].shift(-1)
    return ((following - ordered["starts"]) / whole).fillna(1.0)


def nearly(sheet: DaySheet) -> datetime | None:
    """Give bedtime where the day comes near it, else None."""
    return sheet.bedtime if sheet.finish > sheet.bedtime - timedelta(hours=3) else None


def cautions_of(made: Sequence[DayProduct]) -> dict[str, list[str]]:
    """Give the cautions of a day by what they are about: all of it, or some of its products."""
    every = model.cautions_for(set().union(*(product.tags for product in made)))
    own = {product.name: model.cautions_for(product.tags) for product in made}
    found: dict[str, list[str]] = {}
    for caution in every:
        names = [name for name, cautions in own.items() if caution in cautions]
        of = capital(listed(names, len(names))) if len(names) < len(own) else FOR_ALL
        found.setdefault(of, []).append(caution)
    return dict(sorted(found.items(), key=lambda one: one[0] != FOR_ALL))
