"""A tested process as a card: the figure, where it stands, and the cautions that belong to it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Self

from model.reference.lookup import products
from model.reference.read import source_title
from model.safety.acid import acid_words
from model.safety.altitude import FOOT_M, boiling_point_c
from model.safety.methods import cautions_for
from model.safety.process_times import METHODS, known_altitude, process_lines
from model.season.kitchen import Preserve, ProcessTime

MM_AN_INCH = 25.4
# Ways people write the tested methods.
_METHOD_WORDS = {
    "boiling-water": "boiling water",
    "boiling_water": "boiling water",
    "water bath": "boiling water",
    "pressure_dial": "pressure, dial gauge",
    "pressure dial": "pressure, dial gauge",
    "pressure_weighted": "pressure, weighted gauge",
    "pressure weighted": "pressure, weighted gauge",
}


@dataclass(frozen=True, slots=True)
class ProcessCard:
    """One tested process for one jar at one altitude; ``others`` are lines that also hold.

    Altitudes are feet, times minutes.

    >>> card = model.process_card(
    ...     "Apples, sliced", "boiling water", "hot", "pint", model.altitude_ft("250 m")
    ... )
    >>> card.figure
    '20 minutes in boiling water'
    >>> card.source
    'U.S. Department of Agriculture, Complete Guide to Home Canning, AIB 539, Apples, sliced (text
    as mirrored), 1994'
    """

    jar: str
    altitude_ft: Fraction
    process: ProcessTime
    others: tuple[ProcessTime, ...] = ()

    @classmethod
    def of_preserve(cls, preserve: Preserve, altitude: Fraction | None) -> Self | None:
        """Give the card of a canned preserve at an altitude in feet, or None for any other."""
        process = preserve.process
        if process is None or preserve.jar is None or altitude is None:
            return None
        lines = process_lines(process.product, process.method, process.pack, process.jar, altitude)
        others = tuple(line for line in lines if line != process)
        return cls(preserve.jar, altitude, process, others)

    @property
    def figure(self) -> str:
        """Say the minutes and the boil or the pressure, with the gauge by its name."""
        process = self.process
        if process.pressure_psi is None:
            return f"{process.minutes} minutes in boiling water"
        gauge = process.method.partition(", ")[2]
        return f"{process.minutes} minutes at {process.pressure_psi} psi, {gauge}"

    @property
    def where_it_holds(self) -> str:
        """Say the pack, the jar with the tested size that covers it, and the altitude band."""
        tested = self.process.jar
        jar = self.jar if self.jar.lower().endswith("jar") else f"{self.jar} jar"
        if self.jar.strip().lower() != tested:
            jar += f" (as tested for a {tested})"
        return f"{self.process.pack} pack, {jar}, {self.band}"

    @property
    def source(self) -> str:
        """Say who published it, where and when."""
        return source_title(self.process.source)

    @property
    def band(self) -> str:
        """Say the printed altitude band in feet and metres."""
        low, high = self.process.from_ft, self.process.to_ft
        metres = f"{float(low * FOOT_M):,.0f}-{float(high * FOOT_M):,.0f} m"
        return f"{low:,}-{high:,} ft ({metres})"

    @property
    def tags(self) -> set[str]:
        """Give what the cautions that belong to this process are chosen by."""
        row = products()[self.process.product]
        tags = {"canning", row["acidity"], "shelf"}
        tags.add("pressure" if self.process.method.startswith("pressure") else "boiling water")
        if row["group"] in ("pickle", "relish"):
            tags.add("pickle")
        if self.process.sterilise_empty_jars:
            tags.add("sterilise")
        return tags

    @property
    def cautions(self) -> list[str]:
        """List the cautions that belong to this process."""
        return cautions_for(self.tags)

    @property
    def note(self) -> str:
        """Give what the tested recipe insists on; blank when there is nothing special."""
        return products()[self.process.product]["note"]

    @property
    def steps(self) -> list[str]:
        """List what belongs to the process beside its time: acid first, the recipe's note last."""
        process, steps = self.process, []
        if process.acid_in_every_jar:
            steps.append(f"Acid goes into every jar: {acid_words(process)}.")
        if process.sterilise_empty_jars:
            steps.append("Sterilise the empty jars first.")
        if self.others:
            steps.append(f"Tested as well: {'; '.join(_minutes(line) for line in self.others)}.")
        if process.headspace_mm is not None:
            inches = round(8 * process.headspace_mm / MM_AN_INCH) / 8
            steps.append(f"Headspace {process.headspace_mm:.0f} mm ({inches:g} in).")
        return [*steps, self.note] if self.note else steps

    def values(self) -> dict[str, object]:
        """Give the card as plain values."""
        process = self.process
        return {
            "refused": False,
            "product": process.product,
            "method": process.method,
            "pack": process.pack,
            "jar": self.jar,
            "jar_tested": process.jar,
            "altitude_ft": round(float(self.altitude_ft), 1),
            "band_ft": [process.from_ft, process.to_ft],
            "minutes": process.minutes,
            "pressure_psi": process.pressure_psi,
            "headspace_mm": process.headspace_mm,
            "acid_in_every_jar": process.acid_in_every_jar,
            "acid_in_a_jar": acid_words(process) or None,
            "sterilise_empty_jars": process.sterilise_empty_jars,
            "also_tested": [
                {"minutes": other.minutes, "pressure_psi": other.pressure_psi}
                for other in self.others
            ],
            "note": self.note,
            "source": self.source,
            "cautions": self.cautions,
        }

    def text(self) -> str:
        """Give the card as lines to read."""
        boils = boiling_point_c(float(self.altitude_ft * FOOT_M))
        lines = [
            self.process.product,
            f"{self.figure}; {self.where_it_holds}",
            *self.steps,
            f"Water boils at {boils:.1f} C there.",
            f"Source: {self.source}",
        ]
        return "\n".join([*lines, *(f"  * {caution}" for caution in self.cautions)])


def _minutes(line: ProcessTime) -> str:
    unit = "minute" if line.minutes == 1 else "minutes"
    heat = f"at {line.pressure_psi} psi" if line.pressure_psi else "at the boil"
    return f"{line.minutes} {unit} {heat}"


def process_card(
    product: str, method: str, pack: str, jar: str, altitude: Fraction | None
) -> ProcessCard:
    """Look up a tested process for a card.

    Source: the reference table ``process_times``, each line with its own.

    Raises
    ------
    NoTestedProcess : without a tested process, and without an altitude.
    ValueError : for a jar that is no size.

    >>> card = model.process_card(
    ...     "Apples, sliced", "boiling water", "hot", "pint", model.altitude_ft("250 m")
    ... )
    >>> card.process.minutes
    20
    >>> model.process_card("Apples, sliced", "boiling water", "hot", "pint", None)
    Traceback (most recent call last):
        ...
    model.errors.NoAltitude: without the altitude there is no figure: it changes every time and
    pressure. Ways that remain: give the altitude of the kitchen, in metres or feet
    """
    small = " ".join(method.lower().split())
    known = {name: name for name in METHODS} | _METHOD_WORDS
    lines = process_lines(product, known.get(small, method), pack.strip().lower(), jar, altitude)
    return ProcessCard(jar, known_altitude(altitude), lines[0], lines[1:])
