"""How long a crop keeps in a root store of known temperature and humidity, and what suits it.

A judgement, and told as one: air within the published band, or near it, gives a life between
the published ends; any other the low end. A room of 15 C or more is no store: there the
crop keeps as long as people say it holds in a cool room.
"""

from dataclasses import dataclass

from model.reference.lookup import Keeping, keeping, store_loss_per_week
from model.reference.read import Row, number, table
from model.season.kitchen import Place
from model.season.settings import Settings

STORE = "root store"
ROOM_C = 15.0
COLD, WARM, DRY, DAMP = MISFITS = ("too cold", "too warm", "too dry", "too damp")


@dataclass(frozen=True, slots=True)
class StoreConditions:
    """The air that a crop wants in store: degrees C, per cent of relative humidity."""

    temp_c_low: float
    temp_c_high: float
    humidity_percent_low: float
    humidity_percent_high: float
    source: str


@dataclass(frozen=True, slots=True)
class StoreLife:
    """How long a crop keeps in one place, and which of MISFITS stand against it.

    ``loss_per_week`` is a share of what is left.
    """

    weeks_low: float
    weeks_high: float
    planned_weeks: int
    loss_per_week: float
    misfits: tuple[str, ...]


def store_conditions(crop: str) -> StoreConditions | None:
    """Give the air that a crop wants in store, if any is published."""
    row = _row("store_conditions", crop)
    if row is None:
        return None
    low_c, high_c = float(row["temp_c_low"]), float(row["temp_c_high"])
    dry, damp = float(row["humidity_percent_low"]), float(row["humidity_percent_high"])
    return StoreConditions(low_c, high_c, dry, damp, row["source"])


def store_life(crop: str, place: Place | None, chosen: Settings) -> StoreLife | None:
    """Give how long a crop keeps in a place; None where no store life is published."""
    life = keeping(STORE, crop)
    if life is None:
        return None
    misfits = _misfits(crop, place, chosen)
    usual = store_loss_per_week(crop) or 0.0
    if not misfits:
        between = life.weeks_low + chosen.cellar_life_share * (life.weeks_high - life.weeks_low)
        return StoreLife(life.weeks_low, life.weeks_high, _whole(between), usual, ())
    low, high = _shortened(life, crop, place)
    return StoreLife(low, high, _whole(low), _most_loss(crop) or usual, misfits)


def harm(crop: str, source: str) -> str:
    """Say what a neighbour, or one of MISFITS, does to a crop; blank if nothing is known."""
    for row in table("store_harms"):
        if (row["crop"], row["from"]) == (crop, source):
            return row["harm"]
    return ""


def _misfits(crop: str, place: Place | None, chosen: Settings) -> tuple[str, ...]:
    wanted = store_conditions(crop)
    if wanted is None or place is None:
        return ()
    off, temp_c, humidity = [], place.temp_c, place.humidity_percent
    if temp_c is not None:
        off += [COLD] * (temp_c < wanted.temp_c_low)
        off += [WARM] * (temp_c > wanted.temp_c_high + chosen.store_slack_c)
    if humidity is not None:
        slack = chosen.store_slack_percent
        off += [DRY] * (humidity < wanted.humidity_percent_low - slack)
        off += [DAMP] * (humidity > wanted.humidity_percent_high + slack)
    return tuple(off)


def _shortened(life: Keeping, crop: str, place: Place | None) -> tuple[float, float]:
    """Give the low end; in a room that is no store how long the crop holds there."""
    if place is not None and (place.temp_c or 0.0) >= ROOM_C:
        room = keeping("cool room", crop)
        if room is not None:
            low = min(room.weeks_low, life.weeks_low)
            return low, max(low, min(room.weeks_high, life.weeks_low))
    return life.weeks_low, life.weeks_low


def _whole(weeks: float) -> int:
    return max(1, round(weeks))


def _most_loss(crop: str) -> float | None:
    row = _row("store_loss", crop)
    return number(row["share_per_week_high"]) if row else None


def _row(name: str, crop: str) -> Row | None:
    return next((row for row in table(name) if row["crop"] == crop), None)
