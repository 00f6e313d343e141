"""The working behind next year's first draft, and behind the balance of the year."""

from model.case import Case
from model.outlook.arithmetic import LESS, OVER, PLUS, TIMES, UP, Part, Pen, enough
from model.outlook.next_year_draft import Draft, Use, drafts
from model.outlook.own_units import in_own
from model.outlook.review_table import review_table, reviewed
from model.outlook.working import FROM_NOTES, Source, Working, WorkingLine, line
from model.outlook.working_counts import counted, noun, of_steps, of_unit, steps
from model.season.ledger import Movement
from model.season.record import NOT_AGAIN, RAN_OUT, RIGHT, TOO_MUCH

Lines = tuple[WorkingLine, ...]
AS_EATEN = "gone unknown and taken as eaten"
TAKEN = Source(FROM_NOTES, "taken.csv")


def next_year_workings(case: Case, year: str) -> dict[str, Working]:
    """Map each preserve of the year's review to the working of what to aim at.

    Raises KeyError for a year that is not in the notes.

    >>> model.workings.next_year_workings(planned.case, "2026")["ketchup"].what
    'ketchup: next year'
    """
    units = case.season.units
    return {
        draft.preserve.name: Working(
            f"{draft.preserve.name}: next year",
            counted(draft.aim, draft.preserve.unit, units),
            draft_lines(draft, units),
        )
        for draft in drafts(case, year)
    }


def draft_lines(draft: Draft, units: str) -> Lines:
    """Give the sum from what was used to what to aim at, in the unit it is counted in."""
    own, said = draft.preserve, Source(FROM_NOTES, "verdicts.csv", draft.preserve.name)
    none, unit = counted(0, own.unit, units), steps(own.unit, units)
    if draft.verdict == NOT_AGAIN:
        return (line(f"{none}: {NOT_AGAIN}", said),)
    if draft.unknown:
        return _as_before(draft, unit)

    def write(pen: Pen) -> tuple[Lines, bool]:
        use, less = draft.use, draft.enough_there or draft.verdict == TOO_MUCH
        lines, used, words = _used(pen, use, unit)
        aim: tuple[Part, ...] = (used, words)
        pace, left = 0.0, 0.0
        if use.units and (less or use.short or draft.stretched):
            lines, pace = _paced(pen, use, used, unit, lines)
        if less:
            lines, left = _carried(pen, use, pace, lines)
        if draft.enough_there:
            enough_left = left >= used + pace * use.short
            told = f"{none}: a year's use and more is still there"
            return (*lines, line(f"{told}{_doubt(pen, draft, unit)}")), enough_left
        if pace and use.short:
            aim = (*aim, PLUS, pace, "a day", TIMES, float(use.short), "days still to come")
        if draft.verdict == TOO_MUCH:
            aim = (*aim, LESS, left, "still there")
        elif draft.stretched:
            aim = (*aim, PLUS, pace, "a day", TIMES, float(use.missing), "days without")
        wanted = pen.sum(*aim, unit=of_unit(unit, " to aim at"), whole=UP, floor=less)
        right = draft.verdict in (RIGHT, TOO_MUCH, "") or draft.stretched
        told = "" if right else ", and the book shows no week without"
        told += _unsaid(draft) + _doubt(pen, draft, unit)
        lines.append(line(wanted, TAKEN, said, ends=told))
        lines += of_steps(Pen(3), wanted.result, own.unit, units)
        return tuple(lines), wanted.result == draft.aim

    return enough(write)


def _as_before(draft: Draft, unit: str) -> Lines:
    """Aim at as much as before where nobody knows what of it was used."""
    words = "filled" if draft.meant is None else "meant"
    told = ": nobody wrote down what was eaten of it, or counted it since. Count it first"

    def write(pen: Pen) -> tuple[Lines, bool]:
        again = pen.sum(draft.before, words, unit=of_unit(unit, " to aim at, as before"), whole=UP)
        source = Source(FROM_NOTES, "batches.csv", draft.preserve.name)
        return (line(again, source, ends=told),), again.result == draft.aim

    return enough(write)


def _unsaid(draft: Draft) -> str:
    """Say that weeks without it are left out where nobody said whether that was too few."""
    weeks = draft.use.missing // 7
    if draft.verdict or not weeks or not draft.use.stood:
        return ""
    missing = f"{weeks} week{'s' if weeks > 1 else ''} it was missing"
    return f", not for the {missing} (say {RAN_OUT} where that was too few)"


def _doubt(pen: Pen, draft: Draft, unit: str) -> str:
    """Say what went unknown and is not taken as eaten; blank for nothing."""
    units = draft.use.doubtful
    if not units:
        return ""
    more = "" if draft.verdict == TOO_MUCH else "twice "
    gone = f"{pen.written(units)} {noun(unit, units)} more gone unknown"
    return f"; {gone}, beyond {more}what is wanted in that time: not taken as eaten"


def _used(pen: Pen, use: Use, unit: str) -> tuple[list[WorkingLine], float, str]:
    """Give what was used and its words; where it is more than one thing, with their sum."""
    parts = ((use.eaten, "eaten"), (use.given, "given"), (use.unknown, AS_EATEN))
    said = [(units, words) for units, words in parts if units] or [(0.0, "used")]
    if len(said) == 1:
        return [], pen.rounded(said[0][0]), said[0][1]
    terms: list[Part] = [*said[0]]
    for units, words in said[1:]:
        terms += [PLUS, units, words]
    whole = pen.sum(*terms, unit=of_unit(unit, " used"))
    sources = (TAKEN, *((Source(FROM_NOTES, "stock.csv"),) if use.unknown else ()))
    return [line(whole, *sources)], whole.result, "used"


def _paced(
    pen: Pen, use: Use, used: float, unit: str, lines: list[WorkingLine]
) -> tuple[list[WorkingLine], float]:
    """Write what was used a day."""
    pace = Pen(pen.digits + 2).sum(
        *(used, f"{noun(unit, used)} used", OVER, float(use.paced)),
        "days it stood there" if use.paced == use.stood else "days",
        unit="a day",
    )
    return [*lines, line(pace, TAKEN)], pace.result


def _carried(
    pen: Pen, use: Use, pace: float, lines: list[WorkingLine]
) -> tuple[list[WorkingLine], float]:
    """Write what will still stand there at the new crop, at this pace."""
    if not use.keeps:
        return [*lines, line("none of it keeps to the new crop")], 0.0
    if use.still_eaten < use.carried:
        eaten = pen.sum(
            *(pace, "a day", TIMES, float(use.days_after), "days that it keeps after the new crop"),
            unit="still eaten",
        )
        return [*lines, line(eaten, Source(FROM_NOTES, "stock.csv"))], eaten.result
    left = pen.sum(
        *(use.left, "left", LESS, pace, "a day", TIMES, float(use.days_to_come)),
        "days to the new crop",
        unit="still there",
        floor=True,
    )
    return [*lines, line(left, Source(FROM_NOTES, "stock.csv"))], left.result


def book_workings(case: Case, year: str) -> dict[str, Working]:
    """Map each preserve of the year's review to the balance of its book.

    Raises KeyError for a year that is not in the notes.

    >>> model.workings.book_workings(planned.case, "2026")["ketchup"].what
    'ketchup: left by the book'
    """
    begins, ends = reviewed(case.season, year, case.today)
    rows = review_table(case, year)
    return {
        name: _book(
            name, case.books[name].between(begins, ends), in_own(1.0, unit, case.season.units)
        )
        for name, unit in zip(rows["preserve"], rows["unit"], strict=True)
    }


def _book(name: str, moved: Movement, counts: tuple[float, str]) -> Working:
    each, unit = counts
    parts = (
        *((PLUS, moved.came, "came"), (LESS, moved.eaten, "eaten"), (LESS, moved.given, "given")),
        (LESS, moved.lost, "lost"),
        (PLUS if moved.unknown >= 0 else LESS, abs(moved.unknown), "by counts, unknown"),
    )
    terms: list[Part] = [moved.opening * each, "at the start"]
    for sign, number, words in parts:
        if number:
            terms += [sign, number * each, words]

    def write(pen: Pen) -> tuple[Lines, bool]:
        left = pen.sum(*terms, unit=of_unit(unit, " left"))
        sources = (Source(FROM_NOTES, f"{file}.csv") for file in ("batches", "seals", "taken"))
        lines = (line(left, Source(FROM_NOTES, "stock.csv", name), *sources),)
        return lines, left.result == pen.rounded(moved.left * each)

    return Working(f"{name}: left by the book", counted(moved.left * each, unit, ""), enough(write))
