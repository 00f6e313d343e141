"""Winter: will the shelves last until the new crop, and what gives out first."""

from functools import partial

import altair as alt
import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.ahead_tables import ration_rows
from dashboard.cached import answered, kept, table_of
from dashboard.chart_findings import lasts_finding, shelf_finding
from dashboard.charts.lasts_chart import lasts_chart
from dashboard.charts.stock_chart import food_curve, preserve_curves
from dashboard.charts.strips_chart import share_strips
from dashboard.findings import AS_EMPTY, UNCOUNTED, never_counted, winter_headline
from dashboard.food_curves import curve_title, small_curves
from dashboard.lasting import GONE, lasting_rows, lasting_words, pace_words, until_rows
from dashboard.look import choice, kept_picture, kept_table, picture, table
from dashboard.record_findings import likely_eaten
from dashboard.strips import month_strips, months_finding
from dashboard.supply_picture import supply_picture
from dashboard.tables import shelf_rows, with_dates
from dashboard.units import in_own, weight
from dashboard.words import about, capital, day, listed, local, named, plate_words, several, speaker
from dashboard.working_behind import working_behind
from dashboard.workings import of_foods, of_rations
from model import LEAST_LEVEL, PlannedSeason

SEED = 1
NOW, NEXT = "Until this season's crop", "The winter to come"


def show() -> None:
    """Show the page."""
    plan = place.opened("Will it last until the new crop?", stock=True)
    share = plan.case.season.settings.lean_share
    now = _now(plan)
    foods = kept(
        plan,
        f"how foods stand, now {now}",
        lambda: lasting_rows(_foods(plan, now=now), plan.case.today, share),
    )
    unknown = now and never_counted(plan)
    if unknown:
        place.answer(UNCOUNTED, place.LARDER, "the ten-minute count")
    else:
        told = kept(plan, f"the headline of winter, now {now}", lambda: winter_headline(foods))
        if foods["enough"].eq("no").any():
            place.answer(told, *_onward(plan))
        else:
            place.answer(told, place.LARDER, "what to eat first")
    if told := kept(plan, "what is likely eaten", lambda: _likely_eaten(plan)):
        st.markdown(told)
    bars, curve = st.columns([1, 1], gap="medium")
    with bars:
        if foods.empty:
            st.markdown("No food has to last until a new crop.")
        elif unknown:
            st.subheader("Until when each has to last")
            table(until_rows(foods))
        else:
            today = pd.Timestamp(session.today())
            bars_of = partial(_lasts, foods, today)
            kept_picture(plan, bars_of, lambda: foods, "lasts", now)
            st.caption(kept(plan, f"the bars {now}", lambda: _meaning(plan, foods, share)))
            working_behind(of_foods(plan, foods, now=now), "lasts")
    with curve:
        _curve(plan, foods.head(0) if unknown else foods, now=now)
    _more(plan, foods.head(0) if unknown else foods, now=now)


def _likely_eaten(plan: PlannedSeason) -> str:
    """Say what is taken as gone though the book has it: a count may find that it is not."""
    first = table_of(plan, model.eat_first_table)
    eaten = likely_eaten(plan.case.season, plan.case.books, first)
    if not eaten:
        return ""
    return local(
        f"**Taken as eaten since it was last seen**: {listed(eaten, len(eaten))}. Look, and count: "
        "what still stands there is not in these figures."
    )


def _onward(plan: PlannedSeason) -> tuple[str, str]:
    """Give where what is short is mended: this season, as long as it is not over."""
    if plan.plan.to_fill.any():
        return place.WEEK, "what still can be put up or bought in"
    return place.REVIEW, "what to make more of next year"


def _lasts(foods: pd.DataFrame, today: pd.Timestamp) -> alt.LayerChart:
    return lasts_chart(named(foods), today, lasts_finding(foods))


def _meaning(plan: PlannedSeason, foods: pd.DataFrame, share: float) -> str:
    words = (
        "Bar: from when little fresh is left until it is gone in the middle of the simulated "
        "years; thin bar below it: from when to when in eight years of ten. Diamond: the new "
        "crop. Enough: it lasts in eight years of ten or more; just about: in half of them or "
        "more; else the day by which it is gone."
    )
    if foods["other"].all():
        return words
    off = [food.name for food in plan.case.season.foods if not food.plate]
    but = f" but {local(listed(off))}" if off else ""
    name = plate_words(share)
    part = "half" if share == 0.5 else f"{share:.0%}"
    return f"{words} {capital(name)}: {part} of the portions wanted of all foods{but}."


def _now(plan: PlannedSeason) -> bool:
    """Let the stretch be chosen; say whether it is the one until this season's crop."""
    present = table_of(plan, model.present_food_table)
    if present.empty:
        return False
    usual = NOW if 2 * len(present) >= len(plan.case.arrays.foods) else NEXT
    return choice("Which stretch", [NOW, NEXT], f"stretch_{session.scope()}", usual) == NOW


def _foods(plan: PlannedSeason, *, now: bool) -> pd.DataFrame:
    """Give the foods of a stretch, the whole plate first."""
    foods = table_of(plan, model.present_food_table) if now else table_of(plan, model.food_table)
    plate = model.plate_table(plan, now=now)
    return foods if plate.empty else pd.concat([plate, foods], ignore_index=True)


def _curve(plan: PlannedSeason, foods: pd.DataFrame, *, now: bool) -> None:
    known, place = kept(plan, f"foods with a curve, now {now}", lambda: _curves(plan, foods))
    if not known:
        st.markdown("No food is put up or stored, so there is no stock to draw.")
        return
    key = f"curve_of_{known[place]}_{session.scope()}"
    food = st.selectbox("Stock curve of", known, index=place, format_func=speaker(), key=key)

    def row() -> pd.DataFrame:
        return foods[foods["food"] == food]

    def own() -> pd.DataFrame:
        stock = table_of(plan, model.food_stock_table)
        return with_dates(stock[stock["food"] == food], "day")

    kept_picture(plan, lambda: _curve_of(plan, food, own(), row()), own, "curve", (food, now))
    st.caption(kept(plan, f"the curve of {food}, now {now}", lambda: _below(plan, row())))


def _curves(plan: PlannedSeason, foods: pd.DataFrame) -> tuple[list[str], int]:
    """Give the foods whose stock is known, and the place of the one to begin with."""
    known = sorted(table_of(plan, model.food_stock_table)["food"].unique())
    told = [*foods[foods["standing"] == GONE]["food"], *foods["food"], *known]
    return known, next((known.index(food) for food in told if food in known), 0)


def _below(plan: PlannedSeason, row: pd.DataFrame) -> str:
    return (
        f"{_as_empty(plan)}{_level(plan, row)}Line: the middle of the simulated years, in which "
        "everyone eats what they want while it is there; band: eight years in ten. Dashed: the "
        "plan's own pace in one ordinary year. Shaded: weeks with nothing fresh to pick."
    )


def _as_empty(plan: PlannedSeason) -> str:
    return AS_EMPTY if never_counted(plan) else ""


def _curve_of(
    plan: PlannedSeason, food: str, own: pd.DataFrame, row: pd.DataFrame
) -> alt.LayerChart:
    """Draw the stock of a food; ``row`` says how it stands, and is empty where nothing does."""
    marks = [{"day": pd.Timestamp(plan.case.today), "what": "today"}]
    title = f"{capital(food)}: portions on the shelf"
    if not row.empty:
        if pd.notna(row.iloc[0]["new_crop"]):
            marks.append({"day": row.iloc[0]["new_crop"], "what": "new crop"})
        title = curve_title(food, row.iloc[0])
    lean = _lean(plan)
    return food_curve(own, lean[lean["food"] == food], pd.DataFrame(marks), title)


def _lean(plan: PlannedSeason) -> pd.DataFrame:
    return with_dates(model.lean_table(plan), "begins", "ends")


def _level(plan: PlannedSeason, row: pd.DataFrame) -> str:
    if row.empty:
        return ""
    food = row.iloc[0]
    season = plan.case.season
    each_kg = next((f.portion_g for f in season.foods if f.name == food["food"]), 0.0) / 1000

    def portions(number: float) -> str:
        kg = f" ({weight(number * each_kg, season.units)} on the plate)" if each_kg else ""
        return f"{about(number)} portions a week{kg}"

    if food["level_portions"] >= LEAST_LEVEL:
        return f"{portions(food['level_portions'])} just reach the new crop. "
    if food["use_up_portions"] >= LEAST_LEVEL:
        return (
            f"None of it keeps past {day(food['keeps_until'])}: "
            f"{portions(food['use_up_portions'])} use it up by then. "
        )
    return ""


def _more(plan: PlannedSeason, foods: pd.DataFrame, *, now: bool) -> None:
    """Show more of what is known; no ``foods`` where nobody knows how long they last."""
    every, jars, gap, words = "Every food", "Jar by jar", "Where the portions come from", "In words"
    reach, basket, months = "To make it last", "Too much in one place", "Month by month"
    if foods.empty:
        chosen = choice("More", [gap, every, jars, basket], key="winter_more_uncounted")
    else:
        chosen = choice("More", [words, months, every, jars, gap, reach, basket], key="winter_more")
    if chosen == every:
        small_curves(plan, _lean(plan), foods)
    elif chosen == jars:
        _jars(plan, _lean(plan), foods)
    elif chosen == gap:
        supply_picture(plan)
    elif chosen == months:
        _months(plan)
    elif chosen == reach:
        _reach(plan, now=now)
    elif chosen == basket:
        _basket(plan)
    else:
        kept_table(plan, partial(lasting_words, foods), f"lasting, now {now}")


def _months(plan: PlannedSeason) -> None:
    short = table_of(plan, model.short_months_table)
    if short.empty:
        st.markdown("In these weeks no food has to last.")
        return
    strips = partial(_month_strips, short)
    kept_picture(plan, strips, lambda: short, "months")
    st.caption(
        f"{_as_empty(plan)}The chance that a food runs short in a month, over the simulated "
        "years: the stronger the colour, the likelier; red where more likely than not. In "
        "words: its worst month."
    )


def _month_strips(short: pd.DataFrame) -> alt.LayerChart:
    return share_strips(month_strips(short), months_finding(short))


def _reach(plan: PlannedSeason, *, now: bool) -> None:
    """Show the smallest change after which each food reaches the new crop of the stretch."""
    question = "rations until this season's crop" if now else "rations"
    rations = answered(plan, question, lambda _: model.ration_table(plan, SEED, now=now))
    if rations.empty:
        st.markdown("Every food reaches its new crop as it is eaten now.")
        return
    table(ration_rows(rations))
    working_behind(of_rations(plan, rations), "rations")


def _basket(plan: PlannedSeason) -> None:
    """Warn where more than half of a group's winter cover stands in one place or is of one way."""
    baskets = model.concentration_table(plan)
    if baskets.empty:
        st.markdown("No group of foods has more than half of its winter cover in one place.")
        return
    table(baskets[["food_group", "stands_in", "warning", "remedy"]])


def _jars(plan: PlannedSeason, lean: pd.DataFrame, foods: pd.DataFrame) -> None:
    units = plan.case.season.units
    stands = table_of(plan, model.stock_table)
    stock = shelf_rows(stands, units)
    known = sorted(stock["food"].unique())
    if not known:
        st.markdown("Nothing stands on the shelf, and nothing is to be put up.")
        return
    food = st.selectbox(
        "Preserves of", known, format_func=speaker(), key=f"jars_of_{session.scope()}"
    )
    marks = pd.DataFrame([{"day": pd.Timestamp(session.today()), "what": "today"}])
    portions = table_of(plan, model.food_stock_table)
    title = shelf_finding(portions[portions["food"] == food], stands[stands["food"] == food], units)
    # jars and kilograms have no axis in common
    for unit, own in stock[stock["food"] == food].groupby("unit", sort=False):
        axis = capital(several(in_own(1.0, str(unit), units)[1]))
        shaded = lean[lean["food"] == food]
        picture(preserve_curves(named(own), shaded, marks, title, axis), own, f"jars_{unit}")
        title = f"{capital(local(food))}: {axis.lower()}"
    st.caption(pace_words(foods[foods["food"] == food]))


show()
