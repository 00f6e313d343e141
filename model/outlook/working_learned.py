"""The working behind what was learned: yields, seals, and what is eaten."""

from collections.abc import Hashable, Mapping
from typing import Any

from model.learning.seal_rate import CLUMP_MEAN
from model.outlook.arithmetic import OVER, PLUS, TIMES, Pen, about, enough
from model.outlook.working import FROM_NOTES, FROM_SETTING, Source, Working, WorkingLine, line
from model.outlook.working_garden import own_yield_working
from model.planning import PlannedSeason

Lines = tuple[WorkingLine, ...]
SEALS = Source(FROM_NOTES, "seals.csv")


def learned_working(planned: PlannedSeason, row: Mapping[Hashable, Any]) -> Working:
    """Give the working of a row of ``learned_table``.

    >>> row = model.learned_table(planned).to_dict("records")[0]
    >>> model.workings.learned_working(planned, row).what
    'tomato: own and published yield'
    """
    if row["learned"] == "yield":
        plantings = planned.case.forecast.plantings
        per = str(row["unit"]).removeprefix("kg a ")
        b = next(
            b for b, one in enumerate(plantings)
            if (one.crop, one.per) == (row["what"], per) and one.kg_per_unit == row["usual"]
        )  # fmt: skip
        return own_yield_working(planned, b)
    return seals_working(planned) if row["learned"] != "eaten" else _eaten(row)


def seals_working(planned: PlannedSeason) -> Working:
    """Say what own batches show, and how bad batches and single jars make up the share.

    >>> model.workings.seals_working(planned).lines[0].sources[0].words
    'your notes: seals'
    """
    seals = planned.case.seals
    single = (seals.share - seals.clump_chance * CLUMP_MEAN) / (1 - seals.clump_chance)

    def write(pen: Pen) -> tuple[Lines, bool]:
        fine = Pen(pen.digits + 2)
        seen = fine.sum(
            *(float(seals.failed), "did not seal", OVER, float(seals.filled), "jars"),
            unit="of the own jars",
        )
        good = fine.rounded(1 - fine.rounded(seals.clump_chance))
        share = fine.sum(
            *(seals.clump_chance, "of batches go bad", TIMES, CLUMP_MEAN, "of their jars", PLUS),
            *(good, "of batches", TIMES, single, "of their jars"),
            unit="of the jars to come",
        )
        hundred = pen.sum(share.result, TIMES, 100.0, "jars", unit="of them do not seal")
        weighed = (
            f"{seals.batches} own batches moved the usual {pen.written(100 * seals.usual)} of a "
            "hundred: the more batches, the further"
        )
        span = (
            f"eight times in ten between {about(100 * seals.low)} and {about(100 * seals.high)} "
            "of a hundred"
        )
        lines = (
            line(seen, SEALS),
            line(weighed, SEALS, Source(FROM_SETTING, "seal_failure_share")),
            line(share, SEALS, Source("published", "needs-uncertainty")),
            line(hundred),
            line(span, SEALS),
        )
        return lines, about(hundred.result) == about(100 * seals.share)

    shown = f"{about(100 * seals.share)} of a hundred jars"
    return Working("jars that do not seal", shown, enough(write))


def _eaten(row: Mapping[Hashable, Any]) -> Working:
    usual, own = float(row["usual"]), float(row["own"])

    def write(pen: Pen) -> tuple[Lines, bool]:
        gives = pen.sum(
            *(usual, "portions a week by the notes", TIMES, own / usual, "as counts have shown"),
            unit="portions a week",
        )
        rests = (
            f"from {row['rests_on']} stretches between two counts, weighed with the notes; "
            f"{row['left_out']} say nothing"
        )
        span = (
            f"eight times in ten between {about(float(row['own_low']))} and "
            f"{about(float(row['own_high']))}"
        )
        counts = Source(FROM_NOTES, "stock.csv")
        lines = (
            line(gives, Source(FROM_NOTES, "foods.csv", str(row["what"])), counts),
            line(rests, counts, Source(FROM_SETTING, "appetite_cv")),
            line(span, counts),
        )
        return lines, about(gives.result) == about(own)

    return Working(f"{row['what']}: eaten", f"{about(own)} portions a week", enough(write))
