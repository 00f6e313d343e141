"""Winter: will the shelves last until the new crop, and what gives out first."""

import pandas as pd
import streamlit as st

import model
from dashboard import session
from dashboard.cached import planned
from dashboard.charts.kitchen_chart import SOURCES, supply_chart
from dashboard.charts.lasts_chart import lasts_chart
from dashboard.charts.stock_chart import food_curve, preserve_curves, small_curve
from dashboard.findings import winter_headline
from dashboard.look import choice, table
from dashboard.tables import lasting_rows, lasting_words, with_dates
from dashboard.words import about, day, enough_words
from model import PlannedSeason

NOW, NEXT = "Until this season's crop", "The winter to come"


def show() -> None:
    """Show the page."""
    notes = session.notes()
    if notes is None:
        return
    st.title("Will it last until the new crop?")
    plan = planned(notes.season, session.today())
    foods = lasting_rows(_foods(plan))
    st.markdown(winter_headline(foods))
    bars, curve = st.columns([1, 1], gap="medium")
    with bars:
        title = "Lasts until; the diamond is the new crop"
        chart = lasts_chart(foods, pd.Timestamp(session.today()), title)
        st.altair_chart(chart, width="stretch")
    with curve:
        _curve(plan, foods)
    _more(plan, foods)


def _foods(plan: PlannedSeason) -> pd.DataFrame:
    """Give the foods of the stretch that is chosen, the whole plate first."""
    present = model.present_food_table(plan)
    order = [NOW, NEXT] if 2 * len(present) >= len(plan.case.arrays.foods) else [NEXT, NOW]
    now = not present.empty and choice("Which stretch", order, key="stretch") == NOW
    foods = present if now else model.food_table(plan)
    plate = model.plate_table(plan, now=now)
    return foods if plate.empty else pd.concat([plate, foods], ignore_index=True)


def _curve(plan: PlannedSeason, foods: pd.DataFrame) -> None:
    stock = with_dates(model.food_stock_table(plan), "week")
    lean = with_dates(model.lean_table(plan), "begins", "ends")
    known = sorted(stock["food"].unique())
    standing = foods[foods["lasts_until"] > foods["begins"]]
    first = next(food for food in [*standing["food"], *known] if food in known)
    food = st.selectbox("Stock curve of", known, index=known.index(first), key="curve_of")
    row = foods[foods["food"] == food]
    marks = [{"week": pd.Timestamp(session.today()), "what": "today"}]
    title = f"{food.capitalize()}: portions on the shelf"
    if not row.empty:
        if pd.notna(row.iloc[0]["new_crop"]):
            marks.append({"week": row.iloc[0]["new_crop"], "what": "new crop"})
        title = _curve_title(food, row.iloc[0])
    st.altair_chart(
        food_curve(
            stock[stock["food"] == food], lean[lean["food"] == food], pd.DataFrame(marks), title
        ),
        width="stretch",
    )
    st.caption(
        f"{_level(row)}The line is the middle of the simulated years when everyone eats what they "
        "want, the band eight years in ten; dashed is the plan's own pace. Shaded weeks have no "
        "fresh."
    )


def _level(row: pd.DataFrame) -> str:
    if row.empty:
        return ""
    food = row.iloc[0]
    if food["level_portions"] >= 0.1:
        return f"{about(food['level_portions'])} portions a week just reach the new crop. "
    if food["use_up_portions"] >= 0.1:
        return (
            f"None of it keeps past {day(food['keeps_until'])}: "
            f"{about(food['use_up_portions'])} portions a week use it up by then. "
        )
    return ""


def _curve_title(food: str, row: pd.Series) -> str:
    if row["enough"] != "no":
        return f"{food.capitalize()}: {enough_words(row['enough'])} until the new crop"
    if row["lasts_until"] <= row["begins"]:
        return f"{food.capitalize()}: none on the shelf"
    return f"{food.capitalize()}: gone about {day(row['lasts_until'])}"


def _more(plan: PlannedSeason, foods: pd.DataFrame) -> None:
    every, jars, gap, words = "Every food", "Jar by jar", "Where it comes from", "In words"
    chosen = choice("More", [every, jars, gap, words], key="winter_more")
    lean = with_dates(model.lean_table(plan), "begins", "ends")
    if chosen == every:
        _small_curves(plan, lean)
    elif chosen == jars:
        _jars(plan, lean)
    elif chosen == gap:
        supply = with_dates(model.supply_table(plan), "week")
        supply["order"] = [SOURCES.index(source) for source in supply["source"]]
        title = "Where the plate's portions come from; dashed is what is wanted"
        st.altair_chart(supply_chart(supply, title), width="stretch")
    else:
        table(lasting_words(foods), key="lasting")


def _small_curves(plan: PlannedSeason, lean: pd.DataFrame) -> None:
    stock = with_dates(model.food_stock_table(plan), "week")
    new = with_dates(model.food_table(plan)[["food", "new_crop"]], "new_crop")
    columns = st.columns(3, gap="medium")
    for place, food in enumerate(stock["food"].unique()):
        with columns[place % 3]:
            chart = small_curve(
                stock[stock["food"] == food],
                lean[lean["food"] == food],
                new[new["food"] == food],
                food.capitalize(),
            )
            st.altair_chart(chart, width="stretch")


def _jars(plan: PlannedSeason, lean: pd.DataFrame) -> None:
    stock = with_dates(model.stock_table(plan), "week")
    known = sorted(stock["food"].unique())
    food = st.selectbox("Preserves of", known, key="jars_of")
    marks = pd.DataFrame([{"week": pd.Timestamp(session.today()), "what": "today"}])
    own = stock[stock["food"] == food]
    title = f"{food.capitalize()} on the shelf, by the plan's pace"
    st.altair_chart(preserve_curves(own, lean[lean["food"] == food], marks, title), width="stretch")


show()
