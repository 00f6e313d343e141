"""The one way in for an upload: a zip of CSV files or a workbook, told apart by their bytes."""

from model.exchange.workbook_in import is_workbook, workbook_tables
from model.intake.csv_text import file_fault
from model.intake.folder import MOST_BYTES, shown_name, text_tables, zip_files
from model.intake.tables import SeasonTables


def read_upload(content: bytes, name: str) -> SeasonTables:
    """Read the tables of an upload; ``name`` is only used in messages.

    Raises SeasonProblems when the upload as a whole cannot be read. The faults of single
    files or sheets are in the tables that are given back.

    >>> sorted(model.read_upload(model.workbook(notes), "notes.xlsx").tables)[:2]
    ['away.csv', 'batches.csv']
    >>> model.read_upload(b"nonsense", "notes.zip")
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - notes.zip: this is neither a zip nor a workbook; give a zip of the CSV tables, or the
      workbook, saved as .xlsx
    """
    shown = shown_name(name)
    if len(content) > MOST_BYTES:
        raise file_fault(shown, "the file is too large", f"at most {MOST_BYTES:,} bytes are read")
    if not content.startswith(b"PK"):
        wanted = "give a zip of the CSV tables, or the workbook, saved as .xlsx"
        raise file_fault(shown, "this is neither a zip nor a workbook", wanted)
    if is_workbook(content):
        return workbook_tables(content, shown)
    return text_tables(zip_files(content, name))
