"""The printed processes read again, in plain Python that shares nothing with the look-up."""

import csv
from dataclasses import dataclass
from fractions import Fraction
from importlib.resources import files

from model.season.kitchen import ProcessTime


def _rows(name: str) -> list[dict[str, str]]:
    text = (files("model.reference") / f"{name}.csv").read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


PROCESSES = _rows("process_times")
VOLUME_ML = {row["jar"]: Fraction(row["volume_ml"]) for row in _rows("jar_sizes")}
ACIDITY = {row["product"]: row["acidity"] for row in _rows("products")}
CROPS = {row["product"]: row["crops"].split(";") for row in _rows("products")}


@dataclass(frozen=True)
class Asked:
    """A question for a process; the jar in millilitres, the altitude in feet (None: not known)."""

    product: str
    method: str
    pack: str
    jar_ml: Fraction
    altitude_ft: Fraction | None


def printed(asked: Asked) -> set[tuple[int, int | None]]:
    """Give the printed (minutes, psi) for a question; none where no table has one."""
    own = [
        row
        for row in PROCESSES
        if (row["product"], row["method"], row["pack"]) == (asked.product, asked.method, asked.pack)
    ]
    large = [VOLUME_ML[row["jar"]] for row in own if VOLUME_ML[row["jar"]] >= asked.jar_ml]
    if asked.altitude_ft is None or not large:
        return set()
    tops = sorted({int(row["to_ft"]) for row in own})
    if not any(asked.altitude_ft <= top for top in tops):
        return set()
    return {
        (int(row["process_minutes"]), int(row["pressure_psi"]) if row["pressure_psi"] else None)
        for row in own
        if VOLUME_ML[row["jar"]] == min(large) and _in_band(row, asked.altitude_ft)
    }


def _in_band(row: dict[str, str], altitude_ft: Fraction) -> bool:
    low, high = int(row["from_ft"]), int(row["to_ft"])
    below = low - 1 if low else -10_000
    return below < altitude_ft <= high


def never_below(asked: Asked, answer: ProcessTime) -> None:
    """Fail where an answer is less than what is printed, or may not be given at all."""
    known = printed(asked)
    assert asked.altitude_ft is not None, asked
    assert known, asked
    assert any(
        answer.minutes >= minutes and (answer.pressure_psi or 0) >= (psi or 0)
        for minutes, psi in known
    ), (asked, answer, known)
    if ACIDITY[asked.product] == "low-acid":
        assert asked.method.startswith("pressure"), asked
        assert answer.pressure_psi, asked
