"""A smaller jar for a canned preserve, where a tested process covers it."""

from dataclasses import dataclass

from model.errors import NoTestedProcess
from model.safety.jar_sizes import tested_sizes
from model.safety.process_times import process_time
from model.season.kitchen import Preserve, ProcessTime
from model.season.season import Season


@dataclass(frozen=True, slots=True)
class SmallerJar:
    """A size of jar and the tested process that covers it."""

    name: str
    process: ProcessTime


def smaller_jar(season: Season, preserve: Preserve) -> SmallerJar | None:
    """Give the next smaller jar with a tested process at the kitchen's altitude, if there is one.

    A jar of the household's own that goes into a canner comes before the sizes of the tables.
    """
    tested = preserve.process
    if tested is None:
        return None
    volumes_ml = {jar.name: jar.volume_l * 1000 for jar in season.jars}
    now_ml = volumes_ml[preserve.jar or ""]
    into_canners = {jar for canner in season.canners for jar, _ in canner.jars_per_load}
    own = {name: ml for name, ml in volumes_ml.items() if name in into_canners}
    of_tables = {name: float(ml) for name, ml in tested_sizes().items()}
    for sizes in (own, of_tables):
        smaller = [(ml, name) for name, ml in sizes.items() if ml < now_ml]
        for ml, name in sorted(smaller, reverse=True):
            try:
                found = process_time(
                    tested.product, tested.method, tested.pack, f"{ml:.10g} ml", season.altitude_ft
                )
            except NoTestedProcess:
                continue
            return SmallerJar(name, found)
    return None
