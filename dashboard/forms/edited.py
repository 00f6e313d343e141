"""What was changed in rows that were offered for correction, as edits of the record."""

from collections.abc import Mapping, Sequence

import pandas as pd

from dashboard.entries import is_guess
from model import Edit


def edits_between(
    file: str, before: Sequence[tuple[int, Mapping[str, str]]], after: pd.DataFrame
) -> Sequence[Edit]:
    """Give what the rows of a table were changed to; rows beyond those there were are new.

    A row that was changed is no guess any more.
    """
    edits = []
    for place, row in zip(after.index, after.to_dict("records"), strict=True):
        cells = {str(k): str(v).strip() for k, v in row.items() if pd.notna(v) and str(v).strip()}
        known = int(place) < len(before)
        row_id, was = before[int(place)] if known else (None, {})
        if cells != {name: cell for name, cell in was.items() if cell}:
            if is_guess(cells):
                del cells["note"]
            edits.append(Edit(file, cells or None, row_id))
    left = set(range(len(before))) - {int(place) for place in after.index}
    return [*edits, *(Edit(file, None, before[place][0]) for place in sorted(left))]
