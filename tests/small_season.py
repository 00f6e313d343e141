"""The tiny season that tests share: one bed, two crops, four preserves, two eaters.

``small_tables()`` gives its CSV texts by file name; a test changes one and reads it again.
"""

from pathlib import Path

from model.intake.folder import text_tables
from model.intake.gate import season_from_tables
from model.intake.tables import SeasonTables
from model.season.season import Season

TABLES = {
    "household.csv": "household,invented,altitude_m,notes_date\nTiny,yes,640,2027-03-01\n",
    "frosts.csv": (
        "frost,early_month_day,median_month_day,late_month_day\n"
        "last spring frost,04-28,05-12,05-26\n"
        "first autumn frost,09-20,10-04,10-18\n"
    ),
    "eaters.csv": "eater,age_years,sex\nAnn,40,female\nBen,42,male\n",
    "foods.csv": (
        "food,group,portions_a_week,most_a_week,liking,crops\n"
        "beans,vegetable,3,8,4,bush bean\n"
        "tomatoes,vegetable,4,9,5,tomato\n"
    ),
    "beds.csv": "bed,area_m2\nonly bed,30\n",
    "seasons.csv": "season,begins,ends\n2027,2027-01-01,2027-12-31\n",
    "plantings.csv": (
        "season,crop,bed,sown,planted_out,area_m2,plants\n"
        "2027,bush bean,only bed,2027-05-28,,8,\n"
        "2027,tomato,only bed,2027-03-20,2027-05-28,,12\n"
    ),
    "jars.csv": "jar,volume_ml,owned,lids\nquart,946,40,60\npint,473,30,40\npack,750,,\n",
    "equipment.csv": (
        "equipment,kind,jar,jars_per_load\n"
        "pan,boiling-water canner,quart,7\n"
        "pan,boiling-water canner,pint,9\n"
    ),
    "places.csv": (
        "place,kind,shelf_area_m2,tiers,volume_l,holds_kg\nshelf,shelf,1,2,,\nfreezer,freezer,,,150,\n"
    ),
    "kitchen_hours.csv": "begins,ends,hours_a_week\n,,6\n",
    "preserves.csv": (
        "preserve,food,crop,method,product,pack,jar,share_percent\n"
        "whole tomatoes,tomatoes,tomato,boiling water,"
        '"Tomatoes, whole or halved, in water",hot,quart,60\n'
        'sauce,tomatoes,tomato,boiling water,"Tomato sauce, standard (thin or thick)",hot,pint,40\n'
        "frozen beans,beans,bush bean,freeze,,,pack,80\n"
        'dilled beans,beans,bush bean,boiling water,"Beans, dilled",raw,pint,20\n'
    ),
    "stock.csv": (
        "counted_on,preserve,jars,put_up_on\n"
        "2027-02-27,whole tomatoes,6,2026-09-01\n"
        "2027-02-27,frozen beans,4,2026-08-15\n"
    ),
}


def small_tables(**changes: str | None) -> dict[str, str]:
    """Give the texts by file name; ``changes`` name a file without its ending (None drops it)."""
    tables = dict(TABLES)
    for name, text in changes.items():
        if text is None:
            tables.pop(f"{name}.csv", None)
        else:
            tables[f"{name}.csv"] = text
    return tables


def small_season(**changes: str | None) -> Season:
    """Read the tiny season with some of its files changed."""
    return season_of(small_tables(**changes))


def season_of(texts: dict[str, str]) -> Season:
    """Read a season from its texts by file name."""
    return season_from_tables(tables_of(texts))


def tables_of(texts: dict[str, str]) -> SeasonTables:
    """Give texts by file name as tables."""
    return text_tables((name, text.encode()) for name, text in texts.items())


def write_folder(folder: Path, **changes: str | None) -> Path:
    """Write the tiny season into a folder."""
    for name, text in small_tables(**changes).items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder
