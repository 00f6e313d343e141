"""What comes before and after a tested process in its canner, as clock time.

The process itself is never one of these: it is looked up. Venting and cooling stand in
reference/canner_steps.csv; heating is the household's own figure, as the plan takes it.
"""

from model.reference.read import table
from model.safety.jar_sizes import covering_size, tested_sizes
from model.season.kitchen import ProcessTime
from model.season.settings import Settings

HEAT, VENT, PRESSURE = "heat until steam streams", "vent", "come up to pressure"
BOIL, REST = "heat to a full rolling boil", "rest, lid off, heat off"
COOL, WAIT = "cool to no pressure", "wait before the lid is opened"

CannerSteps = tuple[tuple[str, float], ...]


def before_process(process: ProcessTime, chosen: Settings) -> CannerSteps:
    """List what comes before the process, with minutes."""
    if process.pressure_psi is None:
        return ((BOIL, chosen.come_up_minutes_boiling),)
    vent, rise = _minutes(VENT, process.jar), _minutes(PRESSURE, process.jar)
    heat = max(0.0, chosen.come_up_minutes_pressure - vent - rise)
    return ((HEAT, heat), (VENT, vent), (PRESSURE, rise))


def after_process(process: ProcessTime, chosen: Settings) -> CannerSteps:
    """List what comes between the process and lifting the jars out, with minutes."""
    if process.pressure_psi is None:
        return ((REST, chosen.rest_minutes_boiling),)
    return tuple((step, _minutes(step, process.jar)) for step in (COOL, WAIT))


def _minutes(step: str, jar: str) -> float:
    """Look up the minutes of a step in a pressure canner loaded with a tested size of jar."""
    rows = {row["jar"]: row for row in table("canner_steps") if row["step"] == step}
    if "" in rows:
        return float(rows[""]["minutes"])
    size = covering_size(tested_sizes()[jar], rows) or max(rows, key=tested_sizes().__getitem__)
    return float(rows[size]["minutes"])
