"""The tables of the kitchen and the larder: jars, canners, places, hours, preserves, stock."""

from model.intake.columns import (
    MOST_ENTRIES,
    TableKind,
    choice_column,
    date_column,
    number_column,
    quantity_column,
    text_column,
    whole_column,
)
from model.season.kitchen import METHODS

EQUIPMENT = (
    "boiling-water canner",
    "pressure canner, dial gauge",
    "pressure canner, weighted gauge",
    "dryer",
)
PLACES = ("shelf", "freezer", "root store", "crock")

KITCHEN_TABLES: tuple[TableKind, ...] = (
    TableKind(
        "jars.csv",
        "a size of jar, or of freezer pack",
        (
            text_column("jar", "name"),
            quantity_column("volume", "volume", "nominal", 1e5, least=10.0),
            whole_column("owned", "blank: any number", 0, 1e5, required=False),
            whole_column("lids", "new lids to hand; blank: any number", 0, 1e5, required=False),
            quantity_column("footprint", "footprint", "shelf under one jar", 1e4, required=False),
        ),
        unique=("jar",),
    ),
    TableKind(
        "equipment.csv",
        "a canner with one size of jar, or a dryer",
        (
            text_column("equipment", "name"),
            choice_column("kind", "what it is", EQUIPMENT),
            text_column("jar", "a jar of jars.csv, for canners", required=False),
            whole_column("jars_per_load", "in one load", 1, 60, required=False),
            quantity_column("fresh_per_load", "mass", "for dryers", 1000.0, required=False),
            number_column("loads_a_week", "for dryers", 0.0, 100.0, required=False),
        ),
        unique=("equipment", "jar"),
    ),
    TableKind(
        "places.csv",
        "a place that keeps food",
        (
            text_column("place", "name"),
            choice_column("kind", "what it is", PLACES),
            quantity_column("shelf_area", "area", "of one tier, for shelves", 1e4, required=False),
            whole_column("tiers", "of jars on it, at most 2", 1, 2, required=False),
            quantity_column("volume", "volume", "for freezers and crocks", 1e8, required=False),
            quantity_column("holds", "mass", "for root stores", 1e5, required=False),
            quantity_column(
                "temp", "temperature", "of root stores", 40.0, least=-10.0, required=False
            ),
            number_column("humidity_percent", "of root stores", 0.0, 100.0, required=False),
            date_column("works_from", "when a freezer that died works again", required=False),
        ),
        unique=("place",),
    ),
    TableKind(
        "kitchen_hours.csv",
        "free kitchen hours in a stretch of weeks; blank dates: every other week",
        (
            date_column("begins", "first day", required=False),
            date_column("ends", "last day", required=False),
            number_column("hours_a_week", "free for putting up", 0.0, 112.0),
        ),
    ),
    TableKind(
        "preserves.csv",
        "something that is put up: a recipe in a jar",
        (
            text_column("preserve", "name"),
            text_column("food", "a food of foods.csv"),
            text_column("crop", "its main crop"),
            choice_column("method", "how it is kept", METHODS),
            text_column("product", "the tested product, for canning", required=False),
            text_column("style", "thin or thick sauce", required=False),
            choice_column("pack", "for canning", ("hot", "raw"), required=False),
            text_column("jar", "a jar of jars.csv", required=False),
            number_column(
                "share_percent", "of the food's kept portions", 0.0, 100.0, required=False
            ),
            number_column("liking", "1 to 5; blank: as its food", 1.0, 5.0, required=False),
            number_column("most_a_week", "portions for all, at most", 0.0, 500.0, required=False),
            whole_column(
                "target", "sealed jars wanted; blank: the plan finds it", 0, 1e4, required=False
            ),
            quantity_column(
                "fresh_per_jar", "mass", "as picked", 100.0, least=0.001, required=False
            ),
            number_column("portions_per_jar", "portions", 0.01, 1000.0, required=False),
            number_column("minutes_per_jar", "of hand work", 0.0, 600.0, required=False),
            whole_column("keeps_weeks", "until it is past it", 1, 520, required=False),
            text_column("place", "a place of places.csv", required=False),
        ),
        unique=("preserve",),
        least_rows=1,
    ),
    TableKind(
        "ingredients.csv",
        "a further crop in a preserve",
        (
            text_column("preserve", "name"),
            text_column("crop", "name"),
            quantity_column("fresh_per_jar", "mass", "as picked", 100.0, least=0.001),
        ),
        required=False,
        unique=("preserve", "crop"),
    ),
    TableKind(
        "stock.csv",
        "a count of what stands there: the newest of each preserve counts, 0 is written too",
        (
            date_column("counted_on", "day of the stock-take"),
            text_column("preserve", "name"),
            number_column("jars", "how many (jars, packs, kg, litres)", 0.0, 1e5),
            date_column("put_up_on", "about when it was made; blank for 0", required=False),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
    ),
    TableKind(
        "gifts.csv",
        "jars promised away; the jar does not come back",
        (
            date_column("given_on", "day"),
            text_column("preserve", "name"),
            number_column("jars", "how many", 0.0, 1e4),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
    ),
)
