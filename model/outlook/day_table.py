"""The steps of a day sheet as a table, one below the other with clock times."""

import pandas as pd

from model.outlook.day_sheet import DaySheet

COLUMNS = (
    *("load", "preserve", "units", "equipment", "phase"),
    *("starts", "stops", "clock_from", "clock_until"),
)


def day_table(sheet: DaySheet) -> pd.DataFrame:
    """One row a step of a day sheet, in order; ``starts`` and ``stops`` are local clock times.

    >>> made, refused = model.day_products(season, [model.Wanted("ketchup", 6)])
    >>> table = model.day_table(model.day_sheet(season, made, refused, datetime(2027, 8, 16, 9)))
    >>> print(*table)
    load preserve units equipment phase starts stops clock_from clock_until
    >>> table["phase"].tolist()
    ['prepare', 'fill, wipe, lid and load', 'heat to a full rolling boil', 'process', 'rest, lid
    off, heat off']
    """
    rows = [
        {
            "load": load.number,
            "preserve": load.product.name,
            "units": load.units,
            "equipment": step.equipment,
            "phase": step.phase,
            "starts": step.begins,
            "stops": step.ends,
            "clock_from": f"{step.begins:%H:%M}",
            "clock_until": f"{step.ends:%H:%M}",
        }
        for load in sheet.loads
        for step in load.steps
    ]
    return pd.DataFrame(rows, columns=list(COLUMNS))
