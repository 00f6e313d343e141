"""What a person does on the pages, and what they read there."""

import io
import re
import zipfile
from datetime import date

import pandas as pd
from streamlit.testing.v1 import AppTest
from streamlit.testing.v1.element_tree import Element

import model
from tests.small_season import TABLES

_CELL_ENDS = re.compile(r"(?<!\\) \| ")


def zipped(**changes: str) -> bytes:
    """Give the tiny season as a zip, with some of its files changed."""
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as archive:
        for name, text in TABLES.items():
            archive.writestr(name, changes.get(name.removesuffix(".csv"), text))
    return content.getvalue()


def bring_in(app: AppTest, content: bytes, name: str = "ours.zip") -> AppTest:
    """Read notes on the page for it, as far as the question where to keep them."""
    app.switch_page("views/household.py").run()
    part(app, "Bring in")
    app.file_uploader(key="own_notes").set_value((name, content, "application/zip"))
    return app.run()


def use(app: AppTest, household: str) -> AppTest:
    """Look at one of the kept households."""
    chooser = labelled(app, "selectbox", "Household")
    return app if chooser.value == household else chooser.set_value(household).run()


def look(app: AppTest, household: str, day: date, page: str) -> AppTest:
    use(app, household)
    app.date_input[0].set_value(day).run()
    app.switch_page(page).run()
    assert app.date_input[0].value == day
    return app


def part(app: AppTest, name: str) -> AppTest:
    """Open a part of a page."""
    control = next(control for control in app.segmented_control if name in control.options)
    return control.set_value(name).run()


def labelled(app: AppTest, kind: str, label: str) -> Element:
    """Give the widget of a kind whose label begins so."""
    return next(widget for widget in app.get(kind) if widget.label.startswith(label))


def words(app: AppTest) -> str:
    return " ".join(element.value for element in [*app.markdown, *app.caption, *app.text])


def tables(app: AppTest, *columns: str) -> list[pd.DataFrame]:
    """Give the tables of a page, plain ones first, their columns by the outlook's names.

    A plain table only has its headings; where one heads several columns, ``columns`` decide.
    """
    names = {words: name for name in (*model.HEADINGS, *columns) for words in _headings(name)}
    told = [table.rename(columns=names) for table in plain_tables(app)]
    return [*told, *(table.value for table in app.dataframe)]


def plain_tables(app: AppTest) -> list[pd.DataFrame]:
    """Give the tables that are not grids, under their headings."""
    texts = [_read(text.value) for text in app.markdown if text.value.startswith("| ")]
    return [*texts, *(table.value.map(_unmarked) for table in app.table)]


def _read(written: str) -> pd.DataFrame:
    head, _, *rows = (_CELL_ENDS.split(line[2:-2]) for line in written.splitlines())
    return pd.DataFrame([[_unmarked(cell) for cell in row] for row in rows], columns=head)


def _headings(name: str) -> tuple[str, str]:
    heading = model.HEADINGS[name]
    return heading.words, heading.with_unit


def _unmarked(cell: str) -> str:
    """Give the text of a cell as a reader sees it."""
    bare = re.sub(r"^:gray\[.*?(?<!\\)\] ", "", cell)
    return re.sub(r"\\(.)", r"\1", bare).replace("\N{NO-BREAK SPACE}", " ")


def table_with(app: AppTest, *columns: str) -> pd.DataFrame:
    """Give the first table that has some columns."""
    return next(t for t in tables(app, *columns) if set(columns) <= set(t.columns))


def unfold(app: AppTest) -> AppTest:
    """Open every fold of a page, whose content is only made then."""
    for own in app.expander:
        _, is_fold, name = own.proto.id.partition("-fold_")
        if is_fold:
            app.session_state[f"fold_{name}"] = True
    return app.run()
