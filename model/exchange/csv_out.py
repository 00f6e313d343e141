"""A household's tables as one zip of the CSV files that the gate reads."""

import csv
import io
import zipfile
from collections.abc import Iterator

from model.errors import SeasonProblems
from model.intake.columns import TableKind
from model.intake.folder import TABLE_KINDS
from model.intake.plain_text import neutral
from model.intake.tables import SeasonTables, TextTable

# Zip knows no date before this one; the same tables give the same bytes on any day.
_DATED = (1980, 1, 1, 0, 0, 0)
_UNIX = 3


def csv_zip(tables: SeasonTables) -> bytes:
    """Give the bytes of a zip with a CSV file for each table; the same tables, the same bytes.

    Raises SeasonProblems when a file of the tables is at fault: nothing half is written.

    >>> model.read_upload(model.csv_zip(notes), "notes.zip") == notes
    True
    """
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as archive:
        for kind, table in tables_out(tables):
            text = io.StringIO(newline="")
            csv.writer(text, lineterminator="\n").writerows(lines_out(table))
            member = zipfile.ZipInfo(kind.file, _DATED)
            member.create_system, member.external_attr = _UNIX, 0o644 << 16
            member.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(member, text.getvalue().encode())
    return content.getvalue()


def tables_out(tables: SeasonTables) -> Iterator[tuple[TableKind, TextTable]]:
    """Give each table that is there, in the order of the gate; raises as ``csv_zip`` does."""
    if tables.problems:
        raise SeasonProblems(tables.problems)
    for kind in TABLE_KINDS:
        table = tables.tables.get(kind.file)
        if table is not None:
            yield kind, table if kind.unique else _told_apart(table)


def lines_out(table: TextTable) -> Iterator[list[str]]:
    """Give the headings and rows at their own row numbers, neutral to a spreadsheet."""
    yield [neutral(heading) for heading in table.headings]
    line = 2
    for number, cells in table.rows:
        yield from ([] for _ in range(line, number))
        yield [neutral(cell) for cell in cells]
        line = max(line, number) + 1


def _told_apart(table: TextTable) -> TextTable:
    """Note which row is the second, third of its kind: read again, none seems copied twice."""
    times: dict[tuple[str, ...], int] = {}
    again: dict[int, int] = {}
    for place, (_, cells) in enumerate(table.rows):
        times[cells] = times.get(cells, 0) + 1
        if times[cells] > 1:
            again[place] = times[cells]
    if not again:
        return table
    headings = table.headings if "note" in table.headings else (*table.headings, "note")
    at = headings.index("note")
    rows = []
    for place, (number, cells) in enumerate(table.rows):
        level = [*cells, *[""] * (len(headings) - len(cells))]
        if place in again:
            level[at] = f"{level[at]} (entry {again[place]})".strip()
        rows.append((number, tuple(level)))
    return TextTable(headings, tuple(rows))
