"""How a crop is cured after it is lifted, so that it keeps."""

from dataclasses import dataclass

from model.reference.read import number, table


@dataclass(frozen=True, slots=True)
class Curing:
    """Days, and the air they want: degrees C and per cent, None where none is published."""

    days_low: int
    days_high: int
    temp_c_low: float | None
    temp_c_high: float | None
    humidity_percent_low: float | None
    humidity_percent_high: float | None
    how: str


def curing(crop: str) -> Curing | None:
    """Give how a crop is cured; None where it is not."""
    row = next((row for row in table("curing") if row["crop"] == crop), None)
    if row is None:
        return None
    return Curing(
        int(row["days_low"]),
        int(row["days_high"]),
        number(row["temp_c_low"]),
        number(row["temp_c_high"]),
        number(row["humidity_percent_low"]),
        number(row["humidity_percent_high"]),
        row["how"],
    )
