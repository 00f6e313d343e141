"""A kitchen with every kind of canner, and the day sheets that are made in it."""

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta

from model.outlook.day_product import Wanted, day_products
from model.outlook.day_sheet import DaySheet, Load, day_sheet
from model.season.season import Season
from tests.small_season import TABLES, small_season

DAY = date(2027, 8, 16)
NINE = datetime.combine(DAY, time(9))
PRESSURE = ("pressure, dial gauge", "pressure, weighted gauge")
SNAP_BEANS = "Beans, snap (green, wax, Italian), pieces"
KITCHEN = small_season(
    jars=TABLES["jars.csv"] + "half-pint,236,60,80\nhalf-gallon,1892,8,9\n",
    equipment="equipment,kind,jar,jars_per_load\n"
    + "".join(
        f'{name},"{kind}",{jar},{load}\n'
        for name, kind in (
            ("pan", "boiling-water canner"),
            ("second pan", "boiling-water canner"),
            ("dial", "pressure canner, dial gauge"),
            ("weight", "pressure canner, weighted gauge"),
        )
        for jar, load in (("half-pint", 12), ("pint", 9), ("quart", 7), ("half-gallon", 4))
    ),
)


def sheet(
    season: Season,
    *wanted: Wanted,
    late: bool = False,
    begins: datetime = NINE,
    put_up: Mapping[str, float] | None = None,
) -> DaySheet:
    made, refused = day_products(season, wanted)
    return day_sheet(season, made, refused, begins, past_bedtime=late, put_up=put_up)


def minutes(load: Load) -> dict[str, float]:
    return {step.phase: (step.ends - step.begins) / timedelta(minutes=1) for step in load.steps}
