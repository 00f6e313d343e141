"""The preserving day on paper: loads with clock times, what is set out, processes, cautions."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import model
from dashboard.day_findings import (
    bedtime_words,
    cautions_of,
    day_headline,
    load_words,
    refused_words,
    set_out_words,
    step_words,
    waiting_words,
)
from dashboard.paper.sheet import LINE_MM, Sheet
from dashboard.process import process_words
from dashboard.words import capital, day, local
from model import DayProduct, DaySheet, Season


@dataclass(frozen=True, slots=True)
class PaperDay:
    """A day to be printed: its sheet, and what is made."""

    today: date
    sheet: DaySheet
    made: tuple[DayProduct, ...]


def day_paper(season: Season, paper: PaperDay) -> bytes:
    """Give the day as PDF; every process time in it is that of a card that was looked up."""
    title = f"Preserving day, {day(paper.today)}"
    sheet = Sheet(season, title, "tick off what is done", paper.today)
    sheet.text(_plain(day_headline(paper.sheet)))
    for words in _warnings(season, paper.sheet):
        sheet.text(words, bold=True)
    if paper.sheet.loads:
        sheet.heading("In this order")
    for load in paper.sheet.loads:
        over = load.number in paper.sheet.done
        steps = [] if over else step_words(load, paper.sheet, season.zone)
        sheet.together((len(steps) + 1) * LINE_MM)
        head = load_words(load, paper.sheet, season.units)
        sheet.text(_plain(head), bold=True)
        for step in steps:
            sheet.text(_plain(step), box=True, bold=step.startswith("**"))
    _before(sheet, season, paper)
    _processes(sheet, paper.made)
    if paper.made:
        sheet.heading("Cautions for what is made today")
    for what, cautions in cautions_of(paper.made).items():
        sheet.together(3 * LINE_MM)
        sheet.text(local(what), bold=True)
        sheet.bullets(cautions)
    return sheet.pdf()


def _warnings(season: Season, sheet: DaySheet) -> Iterable[str]:
    told = [
        *(refused_words(one) for one in sheet.refused),
        bedtime_words(sheet),
        *waiting_words(sheet.waiting, season.units),
    ]
    return [_plain(words) for words in told if words]


def _before(sheet: Sheet, season: Season, paper: PaperDay) -> None:
    """Write what is set out, and the checklist with what is ticked off already."""
    if not paper.made:
        return
    sheet.heading("Set out")
    for words in set_out_words(model.set_out(season, paper.sheet.to_make), season.units):
        sheet.text(_plain(words), box=True)
    sheet.heading("Checklist")
    for point in model.checklist(season, paper.made, paper.today):
        ticked = f" (ticked {day(point.ticked_on)})" if point.ticked_on else ""
        sheet.text(local(point.words) + ticked, box=True)


def _processes(sheet: Sheet, made: tuple[DayProduct, ...]) -> None:
    cards = [(one.card, one.name) for one in made if one.card is not None]
    if cards:
        sheet.heading("Processes, as looked up")
    for card, name in cards:
        sheet.text(f"{local(capital(name))}: {card.figure}", bold=True)
        for words in (*process_words(card), card.source):
            sheet.text(words)


def _plain(words: str) -> str:
    """Give words of a page without the marks that make them bold there."""
    return local(words.replace("**", ""))
