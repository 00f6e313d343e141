"""A picking that is mended: its weight is that of its containers, or its own without any."""

from collections.abc import Iterable, Mapping

import model
from model import Edit, Season

FILE, KG, NUMBER, CONTAINER = "harvest_log.csv", "picked_kg", "number", "container"


def weighed_anew(
    season: Season, edits: Iterable[Edit], stored: Mapping[int, Mapping[str, str]]
) -> list[Edit]:
    """Let what was changed of a picking agree: its number, its container and its kilograms.

    Another number or container weighs anew; another weight stands without them.
    """
    return [_agreeing(season, edit, stored.get(edit.row_id or 0, {})) for edit in edits]


def _agreeing(season: Season, edit: Edit, before: Mapping[str, str]) -> Edit:
    cells = edit.cells
    if edit.file != FILE or not cells or not before.get(CONTAINER):
        return edit
    changed = {name for name in (KG, NUMBER, CONTAINER) if cells.get(name) != before.get(name)}
    if changed == {KG}:
        left = {name: cell for name, cell in cells.items() if name not in (NUMBER, CONTAINER)}
        return Edit(FILE, left, edit.row_id)
    if not changed or KG in changed:
        return edit
    try:
        number, was = (float(row[NUMBER]) for row in (cells, before))
        each = float(before[KG]) / was
        if CONTAINER in changed:
            each = model.container_kg(season, cells["crop"])[cells[CONTAINER]]
    except (KeyError, ValueError, ZeroDivisionError):
        return edit
    return Edit(FILE, {**cells, KG: f"{number * each:.6g}"}, edit.row_id)
