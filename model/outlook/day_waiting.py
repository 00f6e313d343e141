"""What is left for another day: how much, why, and where its produce may wait as it was picked."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from math import floor

from model.errors import NotInTables
from model.outlook.day_product import DayProduct
from model.reference.lookup import crop as find_crop
from model.reference.lookup import fresh_per_kept, holding, products
from model.season.season import Season

# The recipe's own limit (reference/cautions.csv) goes before the days a crop would hold.
PICKLED_SOON = "pick it later: what is to be pickled is used within 24 hours of picking"
FULL = {
    "freeze": "the freezer freezes no more in a day",
    "dry": "the dryer holds no more at once",
}


@dataclass(frozen=True, slots=True)
class Waiting:
    """Units of a product that are not made today, why, and the ways its produce may wait.

    >>> made, refused = model.day_products(season, [model.Wanted("crushed tomatoes", 7)])
    >>> sheet = model.day_sheet(season, made, refused, datetime(2027, 8, 16, 21))
    >>> [(left.units, left.why) for left in sheet.waiting]
    [(7, 'it would end past bedtime')]
    """

    product: DayProduct
    units: int
    why: str
    ways: tuple[str, ...]


def waiting(made: Iterable[DayProduct], units: Mapping[str, int], why: str) -> tuple[Waiting, ...]:
    """Give what is left of some products, by name, for one reason."""
    by_name = {product.name: product for product in made}
    return tuple(
        Waiting(by_name[name], number, why, _ways(by_name[name])) for name, number in units.items()
    )


def fitting_today(
    season: Season, made: Iterable[DayProduct], day: date
) -> tuple[tuple[DayProduct, ...], tuple[Waiting, ...]]:
    """Keep so many units as freezers freeze and dryers hold in a day, the first first.

    A product of which nothing is kept stays, with 0 units; gives also what is over.
    """
    rate_kg_per_l = season.settings.freezer_load_g_per_l_day / 1000
    freezers = [place for place in season.places if place.kind == "freezer"]
    room_kg = {p.name: p.volume_l * rate_kg_per_l * p.works_on(day) for p in freezers}
    dead = {p.name: f"{p.name} does not work yet" for p in freezers if not p.works_on(day)}
    room_kg["dry"] = sum(dryer.fresh_kg_per_load for dryer in season.dryers)
    kept, over = list[DayProduct](), list[Waiting]()
    for product in made:
        units = product.units
        if product.preserve is not None and product.method in FULL:
            frozen = product.method == "freeze"
            where = product.preserve.place if frozen else "dry"
            each_kg = sum(
                (find_crop(part.crop).edible_share if frozen else 1.0) * part.kg
                for part in product.ingredients
            )
            units = min(units, floor(room_kg[where] / each_kg + 1e-9))
            room_kg[where] -= units * each_kg
        if units < product.units:
            why = dead.get(where, FULL[product.method])
            over.append(Waiting(product, product.units - units, why, _ways(product)))
        kept.append(replace(product, units=units))
    return tuple(kept), tuple(over)


def _ways(product: DayProduct) -> tuple[str, ...]:
    if product.card is not None:
        group = products()[product.card.process.product]["group"]
        if group in ("pickle", "relish"):
            return (PICKLED_SOON,)
    ways = []
    for part in product.ingredients:
        try:
            hold = holding(part.crop)
        except NotInTables:
            continue
        days = f"{hold.days_low} to {hold.days_high} days"
        if hold.days_low == hold.days_high:
            days = f"{hold.days_low} day{'' if hold.days_low == 1 else 's'}"
        ways.append(f"{part.crop}: {hold.where}, {days} from picking, whole and unwashed")
        if product.method != "freeze" and fresh_per_kept("freeze", part.crop):
            ways.append(f"{part.crop}: freeze it instead")
    return tuple(ways)
