"""The bytes of one CSV file become a text table, within bounds, or the fault of the file."""

import codecs
import csv
import io

from model.errors import Problem, SeasonProblems
from model.intake.columns import TableKind
from model.intake.tables import TextTable, table_of

MOST_BYTES_A_FILE = 2_000_000
SAVE_AS = "save it as CSV UTF-8"


def text_table(kind: TableKind, content: bytes) -> TextTable:
    """Read the bytes of a table's file.

    Raises SeasonProblems when it is too large, no UTF-8 or no CSV, or no table of its kind.
    """
    name = kind.file
    lines = csv.reader(
        io.StringIO(decoded(name, content, MOST_BYTES_A_FILE), newline=""), strict=True
    )
    try:
        return table_of(kind, lines)
    except csv.Error as error:
        wanted = "save it as CSV with commas and closed quotes"
        raise file_fault(name, f"it is no CSV ({error})", wanted) from error


def decoded(name: str, content: bytes, most_bytes: int) -> str:
    """Give the text of a file; raises SeasonProblems when it is too large or no UTF-8."""
    if len(content) > most_bytes:
        raise file_fault(name, "the file is too large", f"at most {most_bytes:,} bytes are read")
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise file_fault(name, "it is written in UTF-16", SAVE_AS)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        row = content.count(b"\n", 0, error.start) + 1
        found = f"a letter is not UTF-8 (byte {content[error.start]:#04x})"
        raise SeasonProblems([Problem(name, row, found, SAVE_AS)]) from error
    if "\0" in text:
        raise file_fault(name, "it holds NUL bytes", SAVE_AS)
    return text


def file_fault(name: str, found: str, wanted: str) -> SeasonProblems:
    """Make the error of a file as a whole."""
    return SeasonProblems([Problem(name, 0, found, wanted)])
