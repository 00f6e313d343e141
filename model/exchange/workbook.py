"""A household's tables as one .xlsx workbook: a sheet for each, every cell text."""

import io

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell

from model.exchange.csv_out import lines_out, tables_out
from model.intake.tables import SeasonTables

_TEXT = "@"


def workbook(tables: SeasonTables) -> bytes:
    """Give the bytes of a workbook with a sheet for each table, named as its file.

    Cells are text, so that a spreadsheet makes no date of a month and a day.

    Raises
    ------
    SeasonProblems : when a file of the tables is at fault: nothing half is written.

    >>> model.read_upload(model.workbook(notes), "notes.xlsx") == notes
    True
    """
    book = Workbook(write_only=True)
    for kind, table in tables_out(tables):
        sheet = book.create_sheet(kind.file.removesuffix(".csv"))
        sheet.freeze_panes = "A2"
        for line in lines_out(table):
            cells = [WriteOnlyCell(sheet, text or None) for text in line]
            for cell in cells:
                cell.number_format = _TEXT
                if cell.value is not None:
                    cell.data_type = "s"
            sheet.append(cells)
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()
