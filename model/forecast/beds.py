"""How much of each bed the plantings take in each week."""

import numpy as np

from model.errors import Problem, SeasonProblems
from model.forecast.harvest import HarvestForecast
from model.season.arrays import Floats
from model.season.season import Season


def bed_occupancy(season: Season, forecast: HarvestForecast) -> Floats:
    """Give the m2 of each bed under one unit of each planting; shape (beds, W, B)."""
    names = [bed.name for bed in season.beds]
    occupied = np.zeros((len(names), len(forecast.weeks), len(forecast.plantings)))
    for b, planting in enumerate(forecast.plantings):
        stands = forecast.occupies[b]
        occupied[names.index(planting.bed), :, b] = planting.area_m2_per_unit * stands
    return occupied


def check_beds_hold(season: Season, forecast: HarvestForecast) -> None:
    """Check that the least amounts fit their beds in every week.

    Raises SeasonProblems, naming every bed that is overfull and its worst week.
    """
    problems = []
    for bed, areas in zip(
        season.beds, bed_occupancy(season, forecast) @ forecast.least, strict=True
    ):
        week = int(areas.argmax())
        if areas[week] > bed.area_m2 * 1.001:
            monday = forecast.weeks.monday(week)
            found = f"the plantings in {bed.name} need {areas[week]:.1f} m2 in the week of {monday}"
            wanted = f"at most {bed.area_m2:g} m2; make some smaller, or set least_percent"
            problems.append(Problem("plantings.csv", 0, found, wanted))
    if problems:
        raise SeasonProblems(problems)
