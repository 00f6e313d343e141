"""Labels to cut out, one for each sealed jar or finished pack."""

from collections.abc import Sequence
from datetime import date

from dashboard.paper.sheet import Sheet
from dashboard.words import day, local
from model import Label, Season

ACROSS = 3


def jar_labels(season: Season, chosen: Sequence[tuple[Label, int]], today: date) -> bytes:
    """Give so many of each label as PDF; the batch's name stands on each word for word."""
    sheet = Sheet(season, "Labels to cut out", f"printed {day(today)}", today)
    labels = []
    for label, number in chosen:
        *told, code = label.lines(day)
        labels += [[*(local(words) for words in told), code]] * number
    sheet.labels(labels, ACROSS)
    return sheet.pdf()
