"""What the record says, as the first sentence of a page."""

from collections.abc import Mapping
from datetime import date

import pandas as pd

import model
from dashboard.units import amount, units_of, weight
from dashboard.words import about, capital, chance, count, day, listed
from model import KEEPS, QUALITY, UNSEEN, VERDICTS, Ledger, Season

COUNT_DUE_WEEKS = 7
# Judgement: from the first jars of summer to the last of them in spring.
SURE_WEEKS = 40
HARDLY = 0.05
A_UNIT = 0.5
MOST_SHORT = 12
MOST_LOOKED_AT = 4
_, _, TOO_MUCH, _ = VERDICTS


def part_counted(season: Season, counted: date) -> tuple[int, int]:
    """Give how many preserves a day's count named, and how many it or the book knew there."""
    named = {one.preserve for one in season.counts if one.day == counted}
    books = model.ledgers(season, counted)
    there = {name for name, book in books.items() if book.found} | named
    return len(named), len(there)


def larder_headline(
    season: Season, first: pd.DataFrame, today: date, unseen_since: date | None
) -> str:
    """Say what to look at or eat first, and whether a count is due.

    ``unseen_since`` is the day since which nobody saw something that stands there.
    """
    # what was put up today is left alone until its seals are due
    told_now = first[~(first["condition"].eq(UNSEEN) & first["put_up_on"].eq(today))]
    doubtful = told_now[~told_now["condition"].isin([KEEPS, QUALITY])]
    if first.empty:
        eaten = likely_eaten(season, model.ledgers(season, today), first)
        told = "By the book the larder is empty."
        told = "What stood there is likely eaten: count it." if eaten else told
    elif len(doubtful):
        told = _look_first(doubtful)
        sound = told_now.drop(doubtful.index)
        told += "" if sound.empty else f" {_eat_first(sound)}"
    elif told_now.empty:
        told = "What stands there was put up today: let it stand untouched until tomorrow."
    else:
        told = _eat_first(told_now)
    counted = season.counted_on(today)
    if counted is None:
        return f"{told} It was never counted: ten minutes with a pencil make every figure sure."
    seen = unseen_since or counted
    weeks = (today - seen).days // 7
    if weeks < COUNT_DUE_WEEKS:
        return told
    ago = f"{count(weeks, 'week')} ago"
    if seen < counted:
        return f"{told} A count is due: some of it was last looked at {ago}."
    return f"{told} A count is due: the last was {ago}."


def likely_eaten(season: Season, books: Mapping[str, Ledger], first: pd.DataFrame) -> list[str]:
    """Name what the book still has though by what is usually eaten none of it is left."""
    shown = set() if first.empty else set(first["preserve"])
    return [
        f"{name} ({units_of(book.units, own.unit, season.units)})"
        for name, book in books.items()
        if (own := season.preserve(name)) and name not in shown and book.units >= 1.0
    ]


def count_first_words(unseen_since: date | None, today: date) -> str:
    """Ask for a count before a draft of next year is trusted, where the last is long ago."""
    weeks = (today - unseen_since).days // 7 if unseen_since else 0
    if weeks < COUNT_DUE_WEEKS:
        return ""
    return (
        f"**Count first**: some of what stands in the book was last seen {count(weeks, 'week')} "
        "ago. It may well be eaten, and the draft takes it as left over."
    )


def young_record_words(season: Season, today: date) -> str:
    """Doubt a draft whose record has not seen a whole winter yet; blank once it has."""
    days = [one.put_up for one in season.record.batches] + [one.day for one in season.counts]
    first = min((day for day in days if day <= today), default=today)
    weeks = (today - first).days // 7
    if weeks >= SURE_WEEKS:
        return ""
    return (
        f"**Too early to be sure**: the record is {count(weeks, 'week')} old, and what is eaten in "
        "a winter it has not seen yet is not in this draft."
    )


def unsown_words(season: Season) -> str:
    """Name the crops that were picked of a ground that is still a guess; blank for none."""
    guessed = {planting.crop for planting in season.plantings if planting.guessed}
    picked = sorted(guessed & {picking.crop for picking in season.pickings})
    if not picked:
        return ""
    return (
        f"**No yield is learned of {listed(picked, len(picked))}**: how much of it was sown was "
        "never written down (Write down, Sown)."
    )


def _eat_first(sound: pd.DataFrame) -> str:
    row = _whole_first(sound)
    return f"**Eat first: {row['preserve']}**, {row['why_first']}."


def _whole_first(first: pd.DataFrame) -> pd.Series:
    """Give the first making of which by all that is known a whole unit is left, if one is."""
    whole = first[first["standing_units"] >= A_UNIT]
    return (first if whole.empty else whole).iloc[0]


def _look_first(doubtful: pd.DataFrame) -> str:
    """Name what is to be looked at; where there are several reasons, they stand in the rows."""
    names, reasons = doubtful["preserve"].unique(), doubtful["why_first"].unique()
    why = f": {reasons[0]}" if len(reasons) == 1 else ""
    return f"**Look first at {listed(list(names), MOST_LOOKED_AT)}**{why}."


def log_headline(season: Season, due: int, fresh: int, today: date) -> str:
    """Say what waits to be written down: batches whose seals are due, and those too fresh."""
    last = max((picking.day for picking in season.pickings if picking.day <= today), default=None)
    picked = f"Last picking written down: {day(last)}." if last else "No picking written down yet."
    seals = f"**{count(due, 'batch waits', 'batches wait')} for a look at the seals.**"
    stand = f"{count(fresh, 'batch stands', 'batches stand')} untouched before the seals are due."
    return " ".join([*([seals] if due else []), *([stand] if fresh else []), picked])


def nothing_to_buy_words(foods: pd.DataFrame) -> str:
    """Say why nothing is to be bought in for putting up: enough is there, or it is too late."""
    short = foods[foods["wanted_portions"] - foods["met_portions"] >= 1.0]
    if short.empty:
        return "In an ordinary year the winter to come is covered: nothing has to be bought."
    return (
        f"**Short, and nothing can be put up against it any more this season**: "
        f"{listed(list(short['food']), MOST_SHORT)}. What is left is to buy it ready or fresh as "
        "it is eaten, or to eat less of it now: Winter, To make it last, says how much."
    )


def review_headline(review: pd.DataFrame, changes: pd.DataFrame, year: str, units: str) -> str:
    """Say how much was filled, what ran out or was lost, and the changes for next year."""
    of_unit = review.groupby("unit")[["filled_units", "sealed_units"]].sum()
    filled, sealed = of_unit.reindex(["jar"], fill_value=0.0).loc["jar"]
    packs = of_unit["filled_units"].get("pack", 0.0)
    out = list(review[review["ran_out"].notna()]["preserve"])
    lost = list(review[review["lost_out"].notna()]["preserve"])
    made = [(filled, count(round(filled), "jar")), (packs, count(round(packs), "freezer pack"))]
    told = listed([words for number, words in made if number])
    parts = [f"In {year} **{told} put up**." if told else f"No jars were filled in {year}."]
    if filled:
        parts.append(f"{sealed:.0f} of the jars are known to have sealed.")
    if out:
        parts.append(f"Ran out: {listed(out)}.")
    if lost:
        parts.append(f"The last was lost, not used up: {listed(lost)}.")
    if not changes.empty:
        told = [
            f"{row.preserve} {units_of(row.next_units, row.unit, units)} "
            f"({units_of(row.before_units, row.unit, units)} {_before(row)} in {year})"
            for row in changes.itertuples()
        ]
        parts.append(f"What would change most next year, by its portions: {listed(told)}.")
    return " ".join(parts)


def balance_words(season: Season, year: str, today: date) -> str:
    """Say which days the balance of a garden year holds."""
    garden = season.garden_season(year)
    return f"The garden year {year}: {day(garden.begins)} to {day(min(garden.ends, today))}."


def draft_words(draft: pd.DataFrame) -> str:
    """Say which days next year's draft looks at, and how it takes what went unknown."""
    first, last = draft["used_from"].min(), draft["used_until"].max()
    one = draft["used_until"].min() == last
    days = (
        f"the 365 days from {day(first)} to {day(last)}"
        if one
        else f"365 days of each to today or its new crop, from {day(first)} to {day(last)} in all"
    )
    return (
        f"**Used in {days}**, so it differs from the garden year under The year. What a count "
        "found missing is spread over the days since the count before and taken as eaten, as far "
        "as it can have been."
    )


def _before(row: tuple) -> str:
    return "filled" if pd.isna(row.meant_units) else "aimed at"


def doubt_words(draft: pd.DataFrame, units: str) -> str:
    """Say what went unknown beyond what can have been eaten; blank for nothing.

    What the household called too much is not asked for again: it said itself where it went.
    """
    rows = draft[(draft["doubtful_units"] >= A_UNIT) & draft["verdict"].ne(TOO_MUCH)]
    if rows.empty:
        return ""
    told = [
        f"{row.preserve} ({units_of(row.doubtful_units, row.unit, units)} beyond it)"
        for row in rows.itertuples()
    ]
    return (
        "**Count again**: more went unknown than can well have been eaten, so the draft does not "
        f"take it as eaten: {listed(told)}."
    )


def fill_words(fill: pd.DataFrame, preserve: str) -> str:
    """Say how many jars of a preserve to fill in all for those to come; blank for none."""
    for row in fill[fill["preserve"] == preserve].itertuples():
        words = f"The plan counts on **{count(row.sealed_needed, 'sealed jar')}** more: fill "
        if row.fill_sure > row.fill_mean:
            return words + (
                f"{row.fill_mean} in all, so that enough seal on average, or {row.fill_sure} so "
                "that enough seal nine times in ten."
            )
        return words + f"{row.fill_mean} in all, and enough seal nine times in ten."
    return ""


def cause_words(causes: pd.DataFrame) -> str:
    """Say what batches whose seals failed have in common; blank where nothing beyond chance."""
    told = [
        f"{row.in_common} {row.what} ({row.bad_batches} batches)" for row in causes.itertuples()
    ]
    if not told:
        return ""
    return (
        f"**Bad seals have something in common**: {listed(told)}. Chance alone seldom does that: "
        "look there first, though it proves nothing."
    )


def smaller_jar_words(jars: pd.DataFrame) -> str:
    """Say which jars were too large, and the tested smaller ones; blank where none was."""
    return " ".join(
        f"{row.unfinished_units:g} of {row.opened_units:g} jars of **{row.preserve}** "
        f"({row.jar}) were not finished: fill the {row.smaller_jar} instead, by the tested "
        "process for it."
        for row in jars.itertuples()
    )


def resow_words(resow: pd.DataFrame, today: date, units: str) -> list[str]:
    """Say of each crop that failed until when it can be sown again, and what could replace it."""
    return [
        f"**{capital(row.crop)} failed.** {_again(row, today)}{_instead(row, units)}"
        for row in resow.itertuples()
    ]


def _again(row: tuple, today: date) -> str:
    if pd.isna(row.chance_today):
        return "It is too early to sow it again."
    if row.chance_today < HARDLY:
        return "Sown again now it hardly makes it."
    chances = {"nine": row.latest_nine, "five": row.latest_five, "two": row.latest_two}
    still = [(tenths, last) for tenths, last in chances.items() if pd.notna(last) and last >= today]
    until = f", {still[0][0]} in ten until {day(still[0][1])}" if still else ""
    return f"Sown again today it is picked in {chance(row.chance_today)}{until}."


def _instead(row: tuple, units: str) -> str:
    if pd.isna(row.instead):
        return ""
    ground, kg = amount(row.instead_m2, "m2", units), weight(row.instead_kg, units)
    return (
        f" Or sow {row.instead} on {ground} of {row.instead_bed}: about {kg}, which puts "
        f"{about(row.instead_portions)} portions on the plate in place of {row.replaces}; "
        f"{about(row.short_portions)} are missing."
    )
