"""Rotation: a bed rests from a crop family for some years, where there is another bed for it."""

from model.season.garden import GardenSeason, Planting
from model.season.season import Season

# Common practice, no source: three to four years between crops of one family in a bed.
RESTS_SEASONS = 3


def grown_before(season: Season, planting: Planting, year: GardenSeason) -> str | None:
    """Name the last season of the notes in which the crop's family stood in the planting's bed.

    None when the bed has rested from it for ``RESTS_SEASONS``, and for perennials, which stay.
    """
    crop = season.crop(planting.crop)
    if crop.counted_from == "first picking":
        return None
    before = [other for other in season.garden_seasons if other.ends < year.begins]
    for other in reversed(before[-RESTS_SEASONS:]):
        for earlier in season.plantings:
            same = season.crop(earlier.crop).family == crop.family
            if earlier.season == other.name and earlier.bed == planting.bed and same:
                return other.name
    return None
