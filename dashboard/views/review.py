"""Review: what came of the year, a verdict on every preserve, and next year's first draft."""

from datetime import date
from functools import partial

import pandas as pd
import streamlit as st

import model
from dashboard import place, session
from dashboard.ahead_tables import learned_rows
from dashboard.cached import kept
from dashboard.forms.next_year_form import next_year_form
from dashboard.forms.verdict_form import verdict_form
from dashboard.forms.writing import last_written
from dashboard.look import choice, kept_table, table
from dashboard.record_findings import (
    balance_words,
    cause_words,
    count_first_words,
    doubt_words,
    draft_words,
    review_headline,
    smaller_jar_words,
    unsown_words,
    young_record_words,
)
from dashboard.record_tables import cause_rows, next_rows, review_rows
from dashboard.words import local
from dashboard.working_behind import working_behind
from dashboard.workings import of_books, of_learned, of_next_year
from model import PlannedSeason, Season

BALANCE, VERDICT, NEXT, LEARNED = "The year", "Verdicts", "Next year", "What was learned"


def show() -> None:
    """Show the page."""
    plan = place.opened("What came of the year, and what to change")
    last_written()
    season, today = plan.case.season, session.today()
    begun = [year.name for year in reversed(season.garden_seasons) if year.begins <= today]
    year = choice("Year", begun, f"year_{session.scope()}", _told_of(season, begun, today))
    review = kept(plan, f"review of {year}", lambda: model.review_table(plan.case, year))
    draft = kept(plan, f"draft after {year}", lambda: model.next_year_table(plan, year))
    if review.empty:
        st.markdown(
            f"Nothing was put up, counted or taken in {year}. Write it down as it happens, or "
            "count the shelves every six to eight weeks: the review comes of itself."
        )
        _learned(plan)
        next_year_form(season, year, draft)
        return
    told = kept(
        plan,
        f"the headline of {year}",
        lambda: review_headline(review, model.largest_changes(draft), year, season.units),
    )
    place.answer(told, place.SPRING, "what to plant")
    causes, jars = model.cause_table(season, today), model.smaller_jar_table(plan.case, year)
    doubt = doubt_words(draft, season.units)
    first = count_first_words(plan.case.unseen_since, today)
    young = young_record_words(season, today)
    for words in (first, young, doubt, cause_words(causes), smaller_jar_words(jars)):
        if words:
            st.markdown(local(words))
    chosen = choice("What", [BALANCE, VERDICT, NEXT, LEARNED], key="review_what")
    if chosen == BALANCE:
        st.markdown(balance_words(season, year, today))
        kept_table(plan, partial(review_rows, review, season.units), f"review of {year}")
        st.caption(
            "What was there at the start and came in, less what was eaten, given and lost, is what "
            "is left; unknown is what counts found more (+) or fewer (-) than the book."
        )
        working_behind(of_books(plan, year), "books")
    elif chosen == VERDICT:
        verdict_form(year, review)
    elif chosen == NEXT:
        st.markdown(draft_words(draft))
        table(next_rows(draft, season.units), "content", key="next_year")
        working_behind(of_next_year(plan, year), "next_year")
        next_year_form(season, year, draft)
    else:
        _learned(plan)
        _in_full("How many to fill so that enough seal", model.fill_table(plan), "fill")
        _in_full("What bad seals have in common", cause_rows(causes), "causes")
        _in_full("Jars that were not finished", jars, "smaller_jars")


def _learned(plan: PlannedSeason) -> None:
    """Show what the record has taught so far, and which pickings teach nothing."""
    season, learned = plan.case.season, model.learned_table(plan)
    if not learned.empty:
        table(learned_rows(learned, season.units), "content", key="learned")
        working_behind(of_learned(plan, learned), "learned")
    if words := unsown_words(season):
        st.markdown(local(words))


def _in_full(title: str, rows: pd.DataFrame, key: str) -> None:
    if not rows.empty:
        st.markdown(f"**{title}**")
        table(rows, "content", key=key)


def _told_of(season: Season, begun: list[str], today: date) -> str:
    """Give the year that has something to tell: one just begun has put up nothing yet."""
    days = [batch.put_up for batch in season.record.batches if batch.put_up <= today]
    years = [season.garden_season(name) for name in begun]
    filled = (y.name for y in years if any(y.begins <= put_up <= y.ends for put_up in days))
    return next(filled, begun[0])


show()
