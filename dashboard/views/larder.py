"""Larder: what stands where, what to eat first, the count, and what went wrong."""

import streamlit as st

import model
from dashboard import place, session
from dashboard.forms.count_form import count_form
from dashboard.forms.incident_form import incident_form
from dashboard.forms.writing import last_written
from dashboard.look import choice, table, wrapped_table
from dashboard.paper.cupboard_list import cupboard_list
from dashboard.record_findings import larder_headline
from dashboard.record_tables import eat_first_rows, place_rows

FIRST, WHERE, COUNT, WRONG = "Eat first", "What stands where", "Count", "Something went wrong"


def show() -> None:
    """Show the page."""
    plan = place.opened("What stands in the larder, and what to eat first", stock=True)
    last_written()
    season, today = plan.case.season, session.today()
    first = model.eat_first_table(plan)
    told = larder_headline(season, first, today)
    place.answer(told, place.WINTER, "will it last until the new crop?")
    chosen = choice("What", [FIRST, WHERE, COUNT, WRONG], key="larder_what")
    if chosen == FIRST:
        if first.empty:
            st.markdown("By the book nothing stands there. Count what is there.")
        else:
            wrapped_table(eat_first_rows(first, season.units))
            st.caption(
                "By condition, then by how long it still keeps, then by age. Look, tilt and smell "
                "before opening, only ever to reject a jar: nothing here says that one is safe."
            )
            st.download_button(
                "Print the list for the cupboard's door (PDF)",
                lambda: cupboard_list(season, first, today),
                "cupboard list.pdf",
                "application/pdf",
                key="print_cupboard",
                icon=":material/print:",
            )
    elif chosen == WHERE:
        table(place_rows(season, plan.case.books), "content", key="where")
    elif chosen == COUNT:
        count_form(season, plan.case.books)
    else:
        incident_form(season, plan.case.books)


show()
