"""What a picking weighs by the container, piece or scale that it is logged in."""

from model.reference.lookup import containers
from model.season.season import Season

SCALES = ("kg", "lb")


def container_kg(season: Season, crop: str) -> dict[str, float]:
    """Map what a crop can be logged in to its kilograms; kg and lb are always there.

    The household's own weight for the crop goes before its own for any crop, and that before
    the starting weight of the reference table.

    A crop that nobody weighed in a container has the weights for any crop.

    >>> weighed = model.container_kg(season, "tomato")
    >>> weighed["kg"], weighed["bushel"]
    (1.0, 24.04)
    """
    starting = containers(crop)
    own = [known for known in season.record.containers if known.crop in ("", crop)]
    own.sort(key=lambda known: known.crop == crop)
    scales = {scale: starting[scale] for scale in SCALES}
    return {**starting, **{known.name: known.kg for known in own}, **scales}
