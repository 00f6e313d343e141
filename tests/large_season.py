"""A household several times as large as an invented one: more beds, foods, preserves and room."""

from collections.abc import Mapping

from tests.many_foods import rows_of, text_of

# Of these tables every further copy has names of its own in these columns.
COPIED = {
    "beds.csv": ("bed",),
    "plantings.csv": ("bed",),
    "foods.csv": ("food",),
    "preserves.csv": ("preserve", "food"),
    "stock.csv": ("preserve",),
}
# How much of these there is grows with the household.
GROWN = {
    "jars.csv": ("owned", "lids"),
    "places.csv": (
        "shelf_area_m2",
        "shelf_area_ft2",
        "volume_l",
        "volume_cu_ft",
        "holds_kg",
        "holds_lb",
    ),
}
MOST_HOURS = 112.0


def times(texts: Mapping[str, str], copies: int) -> dict[str, str]:
    """Give the texts of a folder by file name, of a household several times as large.

    The household's own record stays as it is: it is of the first of the copies. So are the crops
    that are eaten fresh, each of which belongs to one food.
    """
    tables = {name: rows_of(text) for name, text in texts.items()}
    for name in COPIED.keys() & tables.keys():
        tables[name] = [_copy(row, COPIED[name], n) for n in range(copies) for row in tables[name]]
    for name, columns in GROWN.items():
        for row in tables[name]:
            for column in columns:
                if row.get(column):
                    row[column] = f"{float(row[column]) * copies:g}"
    for row in tables["kitchen_hours.csv"]:
        row["hours_a_week"] = f"{min(MOST_HOURS, float(row['hours_a_week']) * copies):g}"
    return {name: text_of(rows) for name, rows in tables.items()}


def _copy(row: Mapping[str, str], names: tuple[str, ...], n: int) -> dict[str, str]:
    if not n:
        return dict(row)
    own = {name: f"{row[name]} {n + 1}" for name in names}
    return {**row, **own, **({"crops": ""} if "crops" in row else {})}
