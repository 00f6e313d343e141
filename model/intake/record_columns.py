"""The tables of the running season: what was put up, sealed and taken, and what was meant."""

from model.intake.columns import (
    MOST_ENTRIES,
    Column,
    TableKind,
    choice_column,
    date_column,
    number_column,
    quantity_column,
    text_column,
)
from model.reference.read import table
from model.season.record import CAUSES, VERDICTS, WENT, WHYS

CHECKLIST = tuple(row["item"] for row in table("checklist"))

RECORD_TABLES: tuple[TableKind, ...] = (
    TableKind(
        "containers.csv",
        "what is picked into, with the household's own weight",
        (
            text_column("container", "name, such as trug"),
            text_column("crop", "of this crop; blank: of any", required=False),
            quantity_column("weighs", "mass", "one full, without itself", 500.0, least=0.001),
        ),
        required=False,
        unique=("container", "crop"),
    ),
    TableKind(
        "batches.csv",
        "something that was put up",
        (
            text_column("batch", "a name of its own, as on the label"),
            date_column("put_up_on", "day"),
            Column("finished_at", "moment", "when its last process ended", required=False),
            text_column("preserve", "name"),
            number_column("filled", "jars, packs, kg or litres", 0.01, 2000.0),
            text_column("lid_box", "the box of lids it took", required=False),
            text_column("again_of", "the batch it reprocesses", required=False),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
        unique=("batch",),
    ),
    TableKind(
        "seals.csv",
        "a look at the seals of a batch; the newest counts",
        (
            text_column("batch", "a batch of batches.csv"),
            date_column("checked_on", "day"),
            number_column("sealed", "jars that are sealed", 0.0, 2000.0),
            choice_column("failed_went", "where the others went", WENT, required=False),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
    ),
    TableKind(
        "taken.csv",
        "something that left the shelf",
        (
            date_column("taken_on", "day"),
            text_column("preserve", "name"),
            number_column("jars", "how many (jars, packs, kg, litres)", 0.0, 1e5),
            choice_column("why", "blank: eaten", WHYS, required=False),
            choice_column("cause", "of a loss", CAUSES, required=False),
            text_column("batch", "where it is known", required=False),
            Column("unfinished", "yes_no", "yes: eaten, but part was thrown away", required=False),
            number_column(
                "of_counted",
                "what a count of that day found before",
                0.0,
                1e5,
                required=False,
            ),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
    ),
    TableKind(
        "meant.csv",
        "sealed jars of a preserve that the kept plan wants from the season",
        (
            date_column("planned_on", "day"),
            text_column("preserve", "name"),
            number_column("sealed_jars", "jars, packs, kg or litres", 0.0, 1e5),
        ),
        most_rows=MOST_ENTRIES,
        required=False,
        unique=("planned_on", "preserve"),
    ),
    TableKind(
        "verdicts.csv",
        "the household's verdict on a preserve at the end of a season",
        (
            text_column("season", "a season of seasons.csv"),
            text_column("preserve", "name"),
            choice_column("verdict", "one of four", VERDICTS),
        ),
        required=False,
        most_rows=MOST_ENTRIES,
        unique=("season", "preserve"),
    ),
    TableKind(
        "checklist.csv",
        "a point ticked off before a preserving day",
        (
            date_column("ticked_on", "day"),
            choice_column("item", "of the checklist", CHECKLIST),
        ),
        required=False,
        most_rows=MOST_ENTRIES,
        unique=("ticked_on", "item"),
    ),
)
