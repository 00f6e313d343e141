"""An uploaded .xlsx workbook becomes text tables, within bounds, or its faults.

Uploads are hostile: what the zip unfolds to, its sheets, rows and columns are bounded before
they are read, and a workbook that does more than hold values (macros, links to other files,
entities) is refused.
"""

import io
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Any

from openpyxl import Workbook, load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from model.errors import Problem, SeasonProblems
from model.intake.columns import TableKind
from model.intake.csv_text import file_fault
from model.intake.folder import (
    MOST_FILES,
    PACKED,
    TABLE_KINDS,
    Sheet,
    season_tables,
    unknown_table,
)
from model.intake.tables import SeasonTables, table_of

MOST_UNFOLDED_BYTES = 60_000_000
MOST_PARTS = 300
MOST_LINES = 50_000
MOST_COLUMNS = 60
_KINDS = {kind.file: kind for kind in TABLE_KINDS}
_OTHER = TableKind("", "", ())
_NO_VALUES = {"f": "a formula", "e": "an error"}
# A part of the workbook whose name holds the first word does what the second says.
_REFUSED = (
    ("vbaproject", "it holds macros", "save it as .xlsx, without macros"),
    (
        "externallinks/",
        "it is linked to other workbooks",
        "break the links (it keeps the values)",
    ),
    ("connections.xml", "it fetches data from elsewhere", "remove its data connections"),
    ("embeddings/", "it holds other files", "remove what is embedded in it"),
    ("activex/", "it holds controls that run", "remove its controls"),
)
_DECLARING = ("<!DOCTYPE", "<!ENTITY")
_XML_CODES = ("ascii", "utf-16-le", "utf-16-be")
_SAVE_AGAIN = "open it in a spreadsheet and save it again as .xlsx"
# What openpyxl, the XML reader and the unpackers raise for a workbook that is damaged or made
# up; it checks little itself.
_DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    InvalidFileException,
    ArithmeticError,
    AttributeError,
    EOFError,
    LookupError,
    OSError,
    RuntimeError,
    SyntaxError,
    TypeError,
    ValueError,
)


def is_workbook(content: bytes) -> bool:
    """Say whether bytes are those of a workbook, whatever their name."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return "xl/workbook.xml" in (name.lower() for name in archive.namelist())
    except _DAMAGE:
        return False


def workbook_tables(content: bytes, name: str) -> SeasonTables:
    """Read the sheets of a workbook; the faults of single sheets are in what is given back.

    Raises SeasonProblems when the workbook as a whole is refused or cannot be read.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            _check(archive, name)
        # Of what it does not read, openpyxl warns; nothing of that is wanted here.
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            book = load_workbook(io.BytesIO(content), read_only=True, keep_links=False)
            return season_tables(_sheets(book, name))
    except _DAMAGE as error:
        raise file_fault(name, "this is no workbook, or it is damaged", _SAVE_AGAIN) from error


def _check(archive: zipfile.ZipFile, name: str) -> None:
    """Refuse what unfolds to too much and what does more than hold values.

    A member never gives more than the size that the list of the zip says.
    """
    members = archive.infolist()
    if len(members) > MOST_PARTS or sum(m.file_size for m in members) > MOST_UNFOLDED_BYTES:
        wanted = f"at most {MOST_UNFOLDED_BYTES:,} bytes are read"
        raise file_fault(name, "the workbook unfolds to too much", wanted)
    if any(member.compress_type not in PACKED for member in members):
        raise file_fault(name, "it is packed in an unusual way", _SAVE_AGAIN)
    names = [member.filename.lower() for member in members]
    problems = [
        Problem(name, 0, found, wanted)
        for part, found, wanted in _REFUSED
        if any(part in filename for filename in names)
    ]
    if any(_defines(archive.read(member)) for member in members):
        problems.append(Problem(name, 0, "its XML defines words of its own", _SAVE_AGAIN))
    if problems:
        raise SeasonProblems(problems)


def _defines(part: bytes) -> bool:
    """Say whether XML declares a document type, within which entities unfold without bound."""
    return any(word.encode(code) in part for word in _DECLARING for code in _XML_CODES)


def _sheets(book: Workbook, name: str) -> Iterator[Sheet]:
    """Give the table of each sheet, or its faults; a blank sheet of another name is none."""
    if len(book.worksheets) > MOST_FILES:
        found = f"the workbook has {len(book.worksheets)} sheets"
        raise file_fault(name, found, f"at most {MOST_FILES} are read")
    for sheet in book.worksheets:
        sheet.reset_dimensions()
        file = f"{sheet.title}.csv"
        kind = _KINDS.get(file)
        try:
            if kind is not None:
                yield file, table_of(kind, _lines(kind, sheet))
            elif any(any(line) for line in _lines(_OTHER, sheet)):
                yield file, SeasonProblems([unknown_table(file)])
        except SeasonProblems as error:
            yield file, error


def _lines(kind: TableKind, sheet: Any) -> Iterator[list[str]]:
    """Give the rows of a sheet as text; at their end the faults of single cells, if there are."""
    headings: list[str] = []
    problems: list[Problem] = []
    kinds = {column.heading: column.kind for column in kind.columns}
    for number, row in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS), start=1):
        if number > MOST_LINES:
            found = f"it goes on below row {MOST_LINES:,}"
            raise file_fault(kind.file, found, "delete the rows below the table")
        line = []
        for place, cell in enumerate(row):
            heading = headings[place] if place < len(headings) else ""
            if cell.data_type in _NO_VALUES:
                found = f"{heading or 'a cell'} is {_NO_VALUES[cell.data_type]}"
                problems.append(Problem(kind.file, number, found, "write its value"))
                line.append("")
            else:
                line.append(_text(cell.value, kinds.get(heading, "")))
        headings = headings or [heading.strip() for heading in line]
        yield line
    if problems:
        raise SeasonProblems(problems)


def _text(value: object, kind: str) -> str:
    """Give a cell's value as the gate reads it; what a spreadsheet took for a date is one again."""
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer():
        return f"{value:.0f}"
    if isinstance(value, datetime) and kind != "moment" and value.time() == time():
        value = value.date()
    if isinstance(value, date) and kind == "month_day":
        return f"{value:%m-%d}"
    if isinstance(value, datetime):
        return value.isoformat(timespec="minutes")
    return str(value)
