"""What the tables say, in a sentence: the headline of each place."""

import math
from collections.abc import Iterable
from datetime import date, timedelta

import pandas as pd

from dashboard.lasting import GONE, NONE, PAST
from dashboard.tables import LEAST_KG
from dashboard.words import about, capital, count, day, listed, short_day
from model import TIGHT, GardenSeason, PlannedSeason, Planting, Season

MET = 0.9
SHELF = {"jar": "jar", "pack": "freezer pack"}
UNCOUNTED = (
    "**Nothing is counted yet: count your shelf.** Until then it is taken as empty, and nobody "
    "knows how long it lasts."
)
AS_EMPTY = "Until it is counted the shelf is taken as empty. "
# What is left over when whole loads and jars are filled is no harvest for more of them.
LEFT_OVER = 0.15
# Judgements: what is sown is written down within two weeks; so many names are read at a glance.
LATE, MOST_UNSOWN = timedelta(weeks=2), 6
# Below this a share of years would be written as none.
SELDOM = 0.005


def all_started(season: Season, today: date) -> bool:
    """Say whether everything of the garden year that holds a day is sown or planted already."""
    years = {year.name for year in season.garden_seasons if year.begins <= today <= year.ends}
    own = [planting.started for planting in season.plantings if planting.season in years]
    return bool(own) and all(started is not None and started <= today for started in own)


def spring_headline(
    totals: pd.DataFrame, foods: pd.DataFrame, limits: pd.DataFrame, to_plant: str | None
) -> str:
    """Say how much to plant and put up, what then lasts or does not and why, what is scarce.

    ``to_plant`` names crops and ground, None once everything is planted. What is put up
    on average of the simulated years leads, what the plan has jars for comes after it.
    """
    shelf = _shelf_words(totals)
    if to_plant:
        put_up = f", and put up {shelf}" if shelf else ""
        sentences = [f"Plant **{to_plant}**{put_up}."]
    else:
        put_up = f"put up still {shelf}" if shelf else "no jar or pack is still to be put up"
        sentences = [f"Everything is planted; {put_up}."]
    sentences += _standing_words(foods)
    scarce = limit_words(limits)
    if scarce:
        sentences.append(f"Used up: **{scarce}**.")
    return " ".join(sentences)


def _shelf_words(totals: pd.DataFrame) -> str:
    """Give the jars and packs of the average year, and the most that are aimed at."""
    rows = totals[totals["unit"].isin(SHELF) & (totals["planned"] > 0)]
    if rows.empty:
        return ""
    planned, likely = (
        [(round(number), SHELF[unit]) for unit, number in zip(rows["unit"], rows[of], strict=True)]
        for of in ("planned", "mean")
    )
    if likely == planned:
        return listed(f"**{count(*one)}**" for one in planned)
    told = (f"about **{count(*one)}**" if one[0] else f"hardly any {one[1]}s" for one in likely)
    return f"{listed(told)}; {listed(count(*one) for one in planned)} at the very most"


def bad_year_words(totals: pd.DataFrame) -> str:
    """Say what a bad year leaves of the jars and packs, and how long the kitchen may take."""
    rows = totals.set_index("unit")
    words = [
        f"{_or_fewer(rows.loc[unit, 'bad_year'], name)} (all "
        f"{rows.loc[unit, 'planned']:.0f} {_in_years(rows.loc[unit, 'chance'])})"
        for unit, name in SHELF.items()
        if rows.loc[unit, "planned"]
    ]
    if not words:
        return ""
    mean, bad = (about(rows.loc["h", name]) for name in ("mean", "bad_year"))
    more = f"in one year of ten {bad} h or more" if bad != mean else "and hardly any year more"
    work = f"On average it takes about {mean} h of kitchen work, {more}."
    return f"In one year of ten: {listed(words)}. {work}"


def _or_fewer(number: float, name: str) -> str:
    whole = math.floor(number)
    if not whole:
        return f"not one {name}"
    return f"{about(whole)} {name if whole == 1 else name + 's'} or fewer"


def _in_years(share: float) -> str:
    return f"in {share:.0%} of years" if share >= SELDOM else "in hardly any year"


def margin_words(margin: float) -> str:
    """Say how much more is planted than an ordinary year asks for, and that it was tried out."""
    if not margin:
        return "Planted as an ordinary year asks for: no larger margin served these years better."
    return (
        f"To be safe in bad years, planted as if each crop gave only {1 / (1 + margin):.0%} of "
        "what is expected, within the notes' limits: of the margins tried in simulated years, "
        "this one serves best."
    )


def _standing_words(foods: pd.DataFrame) -> list[str]:
    """Say how many foods reach their new crop, and what keeps the others from it."""
    enough, likely = (foods[foods["enough"] == word]["food"] for word in ("yes", "likely"))
    short = foods[foods["enough"] == "no"]
    words = []
    if len(enough) + len(likely):
        lasting = f"**{count(len(enough) + len(likely), 'food')}** of {len(foods)}"
        sure = "" if enough.empty else f", {listed(enough, 3)} in eight years of ten"
        words.append(f"With that {lasting} should reach the new crop{sure}.")
    elif len(foods):
        words.append(f"With that none of the {count(len(foods), 'food')} reaches the new crop.")
    ages = short["standing"] == PAST
    filled = short["met_portions"] >= MET * short["wanted_portions"]
    causes = [
        (ages, "Past their keeping before it: {}."),
        (~ages & filled, "Short after a poor harvest: {}."),
        (~ages & ~filled, "Short even after an ordinary harvest: {}."),
    ]
    return words + [text.format(listed(short[own]["food"], 3)) for own, text in causes if own.any()]


def limit_words(limits: pd.DataFrame) -> str:
    """Name the limits that are used up, those that bind longest first; blank without any."""
    tight = limits[limits["share"] >= TIGHT]
    weeks = tight.groupby("limit", sort=False)["week"].agg(["count", "min"])
    ordered = weeks.sort_values("count", ascending=False)
    names = [
        f"{name} ({count(row['count'], 'week')}, the first {short_day(row['min'])})"
        for name, row in ordered.iterrows()
    ]
    return listed(names, 3)


def over_headline(season: str, following: GardenSeason | None) -> str:
    """Say that nothing is left to plant or put up, and where the next season is planned."""
    over = f"The {season} season is over: nothing more comes from the garden before the new crop."
    if following:
        plan = f"Season {following.name} begins on {day(following.begins)}: plan it from that day."
    else:
        plan = (
            "To plan the coming spring, begin its season in the review (or add it and its "
            "plantings to the notes)."
        )
    return f"{over} {plan} What this season leaves short:"


def never_counted(plan: PlannedSeason) -> bool:
    """Say whether nobody knows what stands there: nothing was counted, nothing put up."""
    return not plan.case.stock and plan.case.season.counted_on(plan.case.today) is None


def winter_headline(foods: pd.DataFrame) -> str:
    """Say whether and how long the plate lasts, what gives out first, and what lasts."""
    plate, foods = foods[~foods["other"]], foods[foods["other"]]
    sentences = [_plate_words(row) for row in plate.itertuples()]
    gone = foods[foods["standing"] == GONE].sort_values("lasts_until")
    if len(gone):
        when = day(gone["lasts_until"].min())
        same = gone[gone["lasts_until"] == gone["lasts_until"].min()]["food"]
        sentences.append(f"First to give out: **{listed(same, 3)}**, about {when}.")
    past = foods[foods["standing"] == PAST].sort_values("lasts_until")
    if len(past):
        when = day(past["lasts_until"].min())
        sentences.append(
            f"Past keeping before the new crop: {listed(past['food'], 4)}, from {when}."
        )
    if foods["enough"].ne("no").all():
        sentences.append("Every food is enough or just about enough until its new crop.")
    for enough, words in (("yes", "Enough until the new crop"), ("likely", "Just about enough")):
        lasting = foods[foods["enough"] == enough]["food"]
        if len(lasting):
            sentences.append(f"{words}: {listed(lasting, 4)}.")
    for none in NONE:
        missing = foods[foods["standing"] == none]["food"]
        if len(missing):
            sentences.append(f"{capital(none)}: {listed(missing, 4)}.")
    return " ".join(sentences)


def _plate_words(row: tuple) -> str:
    if row.enough == "no" and row.lasts_until <= row.begins:
        return f"No: {row.food} cannot be filled from {day(row.begins)} on."
    if row.enough == "no":
        return f"No: {row.food} can be filled until **{day(row.lasts_until)}**."
    answer = "Just about" if row.enough == "likely" else "Yes"
    return f"{answer}: {row.food} or more can be filled until the new crop."


def week_headline(
    week: pd.Series, fresh: pd.DataFrame, kg_words: str, openings: pd.DataFrame
) -> str:
    """Say what this week brings and takes; what is stored by weight is eaten, not opened."""
    if fresh.empty and week["jars"] == 0:
        if not round(week["opened"]):
            none = ", put up or open" if openings.empty else " or put up; eat from the stores"
            return f"Week of {day(week['week'])}: nothing to pick{none}."
        opened = f"open about **{count(week['opened'], 'jar or pack', 'jars and packs')}**"
        return f"Week of {day(week['week'])}: nothing to pick or put up; {opened}."
    words = f"Week of {day(week['week'])}: about **{kg_words}** to pick"
    if week["jars"]:
        words += f", **{count(week['jars'], 'jar or pack', 'jars and packs')}** to put up"
        words += f" in {count(week['loads'], 'canner load')}" if week["loads"] else ""
    words += f", {about(week['hours'])} of {about(week['free_hours'])} kitchen hours."
    return words


def unsown_now_words(plantings: Iterable[Planting], today: date) -> str:
    """Name what should be in the ground though nobody wrote down how much; blank for nothing."""
    late = {
        one.crop for one in plantings if one.guessed and one.started and one.started + LATE <= today
    }
    if not late:
        return ""
    return (
        f"**Was it sown? Nobody wrote down {listed(sorted(late), MOST_UNSOWN)}.** Until somebody "
        "does, the plan itself says how much of it there is, and that changes from day to day."
    )


def progress_words(
    progress: pd.DataFrame, last_logged: date | None, weight_of: object
) -> list[str]:
    """Say which crops are ahead or behind; that nothing is known where nothing was logged.

    ``weight_of`` turns kilograms into words.
    """
    if (progress["status"] == "nothing logged").all():
        since = f" since {day(last_logged)}" if last_logged else ""
        return [f"Nothing has been logged{since}, so the season's standing is unknown."]
    said = []
    for status in ("ahead", "ahead or early", "behind"):
        crops = progress[progress["status"] == status]
        if not crops.empty:
            words = ", ".join(
                f"{row.crop} ({weight_of(row.picked_kg)} picked, "
                f"{weight_of(row.expected_so_far_kg)} due by now)"
                for row in crops.itertuples()
            )
            said.append(f"**{capital(status)}**: {words}.")
            if status == "ahead or early" and (crops["to_come_kg"] > LEAST_KG).any():
                said[-1] += (
                    " What ripens at once may only be early: less may be to come than is shown, "
                    "which is not cut for it."
                )
    return said


def what_holds_back(plan: PlannedSeason, preserve: str, limits: pd.DataFrame) -> str:
    """Name what stands in the way of more of a preserve: its harvest, else what is used up.

    Only what is used up while its crops are picked counts, and beds are part of the harvest.
    """
    arrays, harvest = plan.case.arrays, plan.plan.harvest_kg
    rows = [arrays.crops.index(crop) for crop in plan.case.season.preserve(preserve).crops]
    for c in rows:
        if plan.plan.spare_kg[c].sum() <= LEFT_OVER * harvest[c].sum():
            return f"the expected harvest of {arrays.crops[c]}"
    picked = {plan.case.weeks.monday(int(w)) for w in (harvest[rows] > 0).all(axis=0).nonzero()[0]}
    then = limits[limits["week"].isin(picked) & (limits["kind"] != "bed")]
    return limit_words(then) or f"the {listed(arrays.crops[c] for c in rows)} that fills whole jars"
