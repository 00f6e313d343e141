"""The tested process for a product, method, pack, jar and altitude, or a refusal.

Rules: the band that contains the altitude, with sharp edges, rounding up; the tested jar
that is equal or next larger; nothing is interpolated, extrapolated, defaulted or lowered.
Boiling water ends at 8,000 ft: above it some tables print longer times than the open top
band of others. Nothing is given above 10,000 ft, where no table was found.
"""

from fractions import Fraction
from functools import cache

from model.errors import NoAltitude, NoTestedProcess, NotInTables
from model.reference.lookup import product as find_product
from model.reference.lookup import products
from model.reference.read import Row, table
from model.safety.altitude import check_altitude
from model.safety.jar_sizes import covering_size, jar_ml, tested_sizes
from model.safety.methods import RECIPE, ways_that_remain
from model.safety.refusals import why_not
from model.season.kitchen import ProcessTime

METHODS = ("boiling water", "pressure, dial gauge", "pressure, weighted gauge")
PACKS = ("hot", "raw")


def process_time(
    product: str, method: str, pack: str, jar: str, altitude: Fraction | None
) -> ProcessTime:
    """Look up the tested process; the first of the printed lines where there are several.

    Minutes, pounds per square inch and mm of headspace. Source: the reference table
    ``process_times``, each line with its own.

    Parameters
    ----------
    altitude : exact feet above the sea (see ``altitude_ft``), or None when not known.

    Raises
    ------
    NoAltitude : when only the altitude is missing.
    NoTestedProcess : with the reason and the ways that remain.
    ValueError : when ``jar`` names no size.

    >>> process = model.process_time(
    ...     "Apples, sliced", "boiling water", "hot", "pint", model.altitude_ft("250 m")
    ... )
    >>> process.minutes, process.from_ft, process.to_ft
    (20, 0, 1000)
    >>> model.process_time("Pumpkin butter", "boiling water", "hot", "pint", None)
    Traceback (most recent call last):
        ...
    model.errors.NoTestedProcess: puréed or mashed pumpkin, squash, beans or other vegetables: no
    tested process: heat does not reach the middle of a dense pack. Ways that remain: freeze
    """
    return process_lines(product, method, pack, jar, altitude)[0]


def process_lines(
    product: str, method: str, pack: str, jar: str, altitude: Fraction | None
) -> tuple[ProcessTime, ...]:
    """Look up every printed time-and-pressure line that may be used, first line first.

    Takes and raises the same as ``process_time``.

    >>> [
    ...     (line.minutes, line.pressure_psi)
    ...     for line in model.process_lines(
    ...         "Apples, sliced", "pressure, dial gauge", "hot", "pint", model.altitude_ft("250 m")
    ...     )
    ... ]
    [(8, 6)]
    """
    volume_ml = jar_ml(jar)
    own = tested_product(product)
    lines = _lines_of(own, _method(own, method), _pack(own, pack, method))
    size = covering_size(volume_ml, {line.jar for line in lines})
    if size is None:
        largest = max((line.jar for line in lines), key=tested_sizes().__getitem__)
        raise NoTestedProcess(
            f"{own} is tested in jars up to a {largest} ({float(tested_sizes()[largest]):.0f} ml); "
            f"{jar} is larger",
            [f"use a {largest} or smaller", *ways_that_remain(own)],
        )
    height = known_altitude(altitude)
    inside = tuple(line for line in lines if line.jar == size and _holds(line, height))
    if not inside:
        raise _no_band(own, size, method, height, max(line.to_ft for line in lines))
    return inside


def known_altitude(altitude: Fraction | None) -> Fraction:
    """Give an altitude that tables can be asked for; raises NoAltitude and NoTestedProcess."""
    if altitude is None:
        raise NoAltitude(
            "without the altitude there is no figure: it changes every time and pressure",
            ["give the altitude of the kitchen, in metres or feet"],
        )
    try:
        check_altitude(altitude)
    except ValueError as error:
        raise NoTestedProcess(str(error), ["mend the altitude of the kitchen"]) from error
    return altitude


def tested_product(name: str) -> str:
    """Give the tested product that a name is, whatever its capitals, plurals and word order.

    Raises NoTestedProcess, with the reason and the ways that remain, for a name that is none.

    >>> model.tested_product("sliced apples")
    'Apples, sliced'
    >>> model.tested_product("garlic in oil")
    Traceback (most recent call last):
        ...
    model.errors.NoTestedProcess: vegetables, garlic or herbs in oil: nothing in oil is a shelf
    product: the toxin grows under oil. Ways that remain: refrigerate and use within 4 days, freeze
    """
    try:
        return find_product(name)["product"]
    except NotInTables as error:
        raise NoTestedProcess(*why_not(name)) from error


def _method(product: str, method: str) -> str:
    tested = {line.method for line in _lines()[product]}
    if method in tested:
        return method
    ways = ways_that_remain(product)
    if method not in METHODS:
        raise NoTestedProcess(
            f"{method!r} is not a tested way of canning", [*sorted(tested), *ways]
        )
    if products()[product]["acidity"] == "low-acid":
        reason = (
            f"{product} is low in acid: it goes into a pressure canner or is not canned; "
            "no length of boiling replaces it"
        )
        raise NoTestedProcess(reason, ways)
    raise NoTestedProcess(f"{product} has no tested process by {method}", [*sorted(tested), *ways])


def _pack(product: str, pack: str, method: str) -> str:
    tested = {line.pack for line in _lines()[product] if line.method == method}
    if pack in tested:
        return pack
    raise NoTestedProcess(
        f"{product} by {method} has no tested {pack or 'unnamed'} pack",
        [f"{known} pack" for known in sorted(tested)],
    )


def _lines_of(product: str, method: str, pack: str) -> tuple[ProcessTime, ...]:
    lines = _lines()[product]
    return tuple(line for line in lines if line.method == method and line.pack == pack)


def _holds(line: ProcessTime, altitude: Fraction) -> bool:
    """Say whether a printed band holds an altitude; between two bands the upper one does."""
    return (line.from_ft == 0 or altitude > line.from_ft - 1) and altitude <= line.to_ft


def _no_band(
    product: str, size: str, method: str, altitude: Fraction, top_ft: int
) -> NoTestedProcess:
    reason = f"no tested process for {product} in a {size} at {float(altitude):.0f} ft by {method}"
    if altitude > top_ft:
        reason += f": tables end or differ above {top_ft:,} ft; ask your local extension service"
    others = {line.method for line in _lines()[product] if _holds(line, altitude)} - {method}
    ways = [way for way in ways_that_remain(product) if _holds_way(way, altitude)]
    return NoTestedProcess(reason, [*sorted(others), *ways])


def _holds_way(way: str, altitude: Fraction) -> bool:
    """Say whether a way that remains does so at an altitude: another recipe has its own tables."""
    other = way.removeprefix(RECIPE)
    return other == way or any(_holds(line, altitude) for line in _lines()[other])


@cache
def _lines() -> dict[str, tuple[ProcessTime, ...]]:
    lines: dict[str, list[tuple[int, ProcessTime]]] = {}
    for row in table("process_times"):
        lines.setdefault(row["product"], []).append((int(row["line"]), _line(row)))
    ordered = {}
    for product, pairs in lines.items():
        ordered[product] = tuple(line for _, line in sorted(pairs, key=lambda pair: pair[0]))
    return ordered


def _line(row: Row) -> ProcessTime:
    return ProcessTime(
        product=row["product"],
        method=row["method"],
        pack=row["pack"],
        jar=row["jar"],
        from_ft=int(row["from_ft"]),
        to_ft=int(row["to_ft"]),
        minutes=int(row["process_minutes"]),
        pressure_psi=int(row["pressure_psi"]) if row["pressure_psi"] else None,
        headspace_mm=float(row["headspace_mm"]) if row["headspace_mm"] else None,
        acid_in_every_jar=row["acid_in_every_jar"] == "yes",
        sterilise_empty_jars=row["sterilise_empty_jars"] == "yes",
        source=row["source"],
    )
