"""What the tables say, in a sentence: the headline of each place."""

import pandas as pd

from dashboard.words import PLATE, about, count, day, listed, short_day


def spring_headline(preserves: pd.DataFrame, foods: pd.DataFrame, limits: pd.DataFrame) -> str:
    """Say how many jars to fill, what then lasts, and what limits it."""
    jars = preserves[preserves["unit"] == "jar"]["to_fill"].sum()
    packs = preserves[preserves["unit"] == "pack"]["to_fill"].sum()
    lasting = foods[foods["enough"] == "yes"]
    sentence = (
        f"Fill **{count(jars, 'jar')}** and **{count(packs, 'freezer pack')}**: "
        f"then {len(lasting)} of {len(foods)} foods last until their new crop "
        "in eight years of ten."
    )
    if not limits.empty:
        sentence += f" What limits you most: **{limit_words(limits)}**."
    return sentence


def limit_words(limits: pd.DataFrame) -> str:
    """Name the limits that are used up, those that bind longest first."""
    tight = limits[limits["share"] >= 0.97]
    if tight.empty:
        return "nothing is used up"
    weeks = tight.groupby("limit", sort=False)["week"].agg(["count", "min"])
    ordered = weeks.sort_values("count", ascending=False)
    names = [
        f"{name} ({count(row['count'], 'week')} from {short_day(row['min'])})"
        for name, row in ordered.iterrows()
    ]
    return listed(names, 3)


def over_headline(season: str) -> str:
    """Say that nothing is left to plant or put up."""
    return (
        f"The {season} season is over: nothing more comes from the garden before the new crop. "
        "To plan the coming spring, add its season and plantings to the notes and look at them "
        "from a day in that season. What this season leaves short:"
    )


def winter_headline(foods: pd.DataFrame) -> str:
    """Say what gives out first, and what lasts."""
    plate, foods = foods[foods["food"] == PLATE], foods[foods["food"] != PLATE]
    short = foods[foods["enough"] == "no"].sort_values("lasts_until")
    if short.empty:
        return "Every food lasts until its new crop in at least half of the years."
    whole = ""
    if not plate.empty and plate.iloc[0]["enough"] == "no":
        whole = f"Half the plate can be filled until **{day(plate.iloc[0]['lasts_until'])}**. "
    elif not plate.empty:
        whole = "Half the plate or more can be filled until the new crop. "
    first = short.iloc[0]
    same = short[short["lasts_until"] == first["lasts_until"]]["food"]
    sentence = f"First to give out: **{listed(same, 3)}**, about {day(first['lasts_until'])}."
    lasts = foods[foods["enough"] == "yes"]["food"]
    if len(lasts):
        sentence += f" Enough until the new crop: {listed(lasts, 4)}."
    return whole + sentence


def week_headline(week: pd.Series, fresh: pd.DataFrame, kg_words: str) -> str:
    """Say what this week brings and takes."""
    if fresh.empty and week["jars"] == 0:
        opened = f"open about **{count(week['opened'], 'jar or pack', 'jars and packs')}**"
        return f"Week of {day(week['week'])}: nothing to pick or put up; {opened}."
    words = f"Week of {day(week['week'])}: about **{kg_words}** to pick"
    if week["jars"]:
        words += f", **{count(week['jars'], 'jar or pack', 'jars and packs')}** to put up"
        words += f" in {count(week['loads'], 'load')}" if week["loads"] else ""
    words += f", {about(week['hours'])} of {about(week['free_hours'])} kitchen hours."
    return words
