"""Typed answers from the reference tables; an unknown name is an error naming its neighbours."""

from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cache

from model.errors import NotInTables
from model.reference.read import Row, number, table
from model.reference.words import words
from model.season.garden import Crop, CropYield
from model.season.settings import Settings


@dataclass(frozen=True, slots=True)
class Keeping:
    """How long something keeps by one method, in weeks, and where that stands."""

    weeks_low: float
    weeks_high: float
    status: str
    source: str


@dataclass(frozen=True, slots=True)
class Holding:
    """How many days a crop waits as picked, and where."""

    where: str
    days_low: int
    days_high: int


@dataclass(frozen=True, slots=True)
class Portion:
    """What one portion of a food group is."""

    words: str
    ml: float
    g: float
    plate: bool


@dataclass(frozen=True, slots=True)
class FreshWeight:
    """Fresh kilograms of one crop (blank: the main one) in a litre of jar."""

    crop: str
    kg_per_l: float
    status: str
    source: str


@cache
def crop_names() -> dict[str, str]:
    """Map every name a crop goes by, in small letters, to its own."""
    names: dict[str, str] = {}
    for row in table("crops"):
        for name in (row["us_name"], row["uk_name"], *row["also_called"].split(";")):
            names.setdefault(name.lower(), row["crop"])
    names.update({row["crop"].lower(): row["crop"] for row in table("crops")})
    names.pop("", None)
    return names


@cache
def crop(name: str) -> Crop:
    """Give a crop by any of its names; raises NotInTables."""
    names = crop_names()
    own = names.get(name.strip().lower())
    if own is None:
        close = get_close_matches(name.strip().lower(), list(names), n=3, cutoff=0.6)
        raise NotInTables("crop", name, dict.fromkeys(names[near] for near in close))
    row = next(row for row in table("crops") if row["crop"] == own)
    return Crop(
        name=own,
        family=row["family"],
        tender=row["frost_class"] == "tender",
        counted_from=row["days_counted_from"],
        days_low=number(row["days_to_first_picking_low"]),
        days_high=number(row["days_to_first_picking_high"]),
        picking_days_low=float(row["picking_days_low"]),
        picking_days_high=float(row["picking_days_high"]),
        shape=row["harvest_shape"],
        frost=row["frost"],
        season_cv=float(row["season_cv"]),
        chance_near_total_loss=float(row["chance_near_total_loss"]),
        plants_per_m2=number(row["plants_per_m2"]),
        hold_days=(holding(own).days_low + holding(own).days_high) / 2,
        edible_share=float(row["edible_share"]),
        yields=_yields(own),
    )


def holding(own: str) -> Holding:
    """Give how long a crop waits as picked; raises NotInTables."""
    row = _row("crops", crop=own)
    low, high = int(row["holds_days_low"]), int(row["holds_days_high"])
    return Holding(row["holds_where"], low, high)


def way_to_wait(own: str) -> str:
    """Say how a crop is made to wait at little cost; raises NotInTables."""
    return _row("crops", crop=own)["way_to_wait"]


def _yields(own: str) -> tuple[CropYield, ...]:
    return tuple(
        CropYield(
            form=row["form"],
            per=row["per"],
            kg_low=float(row["kg_low"]),
            kg_typical=float(row["kg_typical"]),
            kg_high=float(row["kg_high"]),
        )
        for row in table("yields")
        if row["crop"] == own
    )


def _row(name: str, **cells: str) -> Row:
    for row in table(name):
        if all(row[column] == text for column, text in cells.items()):
            return row
    raise NotInTables(name, ", ".join(cells.values()), ())


@cache
def products() -> dict[str, Row]:
    """Map the name of every tested product to its row.

    >>> model.products()["Apples, sliced"]["acidity"]
    'high-acid'
    """
    return {row["product"]: row for row in table("products")}


def product(name: str) -> Row:
    """Give a tested product by the words of its name; raises NotInTables, with no neighbours.

    What is spelled alike may be another food, whose process would be the wrong one.
    """
    for known, row in products().items():
        if words(known) == words(name):
            return row
    raise NotInTables("tested product", name, ())


def fresh_per_jar(product_name: str, crop_name: str, style: str = "") -> tuple[FreshWeight, ...]:
    """Give the fresh weights in a litre of jar of a tested product; empty when none is printed.

    A row for the crop itself goes before one for the product as a whole; a product made of
    several crops gives one weight for each, the first for the crop asked for.
    """
    rows = [
        row
        for row in table("fresh_per_jar")
        if row["product"] == product_name and (not style or row["style"] == style)
    ]
    general = [row for row in rows if not row["crop"]]
    mixed = [row for row in rows if row["crop"] and row["weighed"].count("+")]
    own = [row for row in rows if row["crop"] == crop_name and not row["weighed"].count("+")]
    chosen = own or general[:1] or mixed
    weights = [
        FreshWeight(
            crop=row["crop"] or crop_name,
            kg_per_l=float(row["kg_per_litre_typical"]),
            status=row["status"],
            source=row["source"],
        )
        for row in chosen
    ]
    if weights and all(weight.crop != crop_name for weight in weights):
        weights[0] = replace(weights[0], crop=crop_name)
    return tuple(weights)


def densest_pack(product_name: str, style: str = "") -> dict[str, float]:
    """Map each crop of a tested recipe (``""``: all together) to the most published kg a litre.

    Without a style that is known the densest counts. Empty when nothing is published: a
    derived or remembered figure sets no limit.
    """
    rows = [
        row
        for row in table("fresh_per_jar")
        if row["product"] == product_name and row["status"] == "published"
    ]
    densest: dict[str, float] = {}
    for row in [row for row in rows if style and row["style"] == style] or rows:
        most = max(densest.get(row["crop"], 0.0), float(row["kg_per_litre_high"]))
        densest[row["crop"]] = most
    return densest


def product_crops(product_name: str) -> tuple[str, ...]:
    """List the crops that a tested recipe names, the further ones of a mixture too."""
    named = products()[product_name]["crops"].split(";")
    mixed = (row["crop"] for row in table("fresh_per_jar") if row["product"] == product_name)
    return tuple(name for name in dict.fromkeys([*named, *mixed]) if name)


def fresh_per_kept(method: str, crop_name: str) -> FreshWeight | None:
    """Give fresh kilograms a litre frozen or in the crock, or a kilogram dried."""
    for row in table("fresh_per_kept"):
        if row["method"] == method and row["crop"] == crop_name:
            return FreshWeight(crop_name, float(row["fresh_typical"]), row["status"], row["source"])
    return None


def keeping(method: str, crop_name: str) -> Keeping | None:
    """Give how long a crop keeps by a method; the row for any crop where it has none."""
    found = None
    for row in table("keeping"):
        if row["method"] == method and row["crop"] in (crop_name, "any"):
            answer = Keeping(
                float(row["weeks_low"]), float(row["weeks_high"]), row["status"], row["source"]
            )
            if row["crop"] == crop_name:
                return answer
            found = answer
    return found


def store_loss_per_week(crop_name: str) -> float | None:
    """Give the share of a crop that a root store loses in a week."""
    for row in table("store_loss"):
        if row["crop"] == crop_name:
            return float(row["share_per_week_typical"])
    return None


def hand_minutes_per_kg(work: str, crop_name: str) -> float | None:
    """Give minutes of hand work for a kilogram as picked."""
    for row in table("hand_minutes"):
        if row["work"] == work and row["crop"] in (crop_name, "any"):
            return float(row["minutes_per_kg_typical"])
    return None


def containers(crop_name: str) -> dict[str, float]:
    """Map each container that a crop is picked into, or piece of it, to its kilograms.

    A starting weight until the household weighs its own: the crop's where it has one, else
    that of any crop.
    """
    rows = [row for row in table("containers") if row["crop"] in (crop_name, "any")]
    rows.sort(key=lambda row: row["crop"] == crop_name)
    return {row["container"]: float(row["kg"]) for row in rows}


def portion(group: str) -> Portion:
    """Give what one portion of a food group is; raises NotInTables."""
    groups = [row["group"] for row in table("portions")]
    if group not in groups:
        raise NotInTables("food group", group, get_close_matches(group, groups, n=2) or groups)
    row = _row("portions", group=group)
    return Portion(
        row["portion"], float(row["portion_ml"]), float(row["portion_g"]), row["plate"] == "yes"
    )


def age_scale(food_group: str, age_years: int, sex: str) -> float:
    """Give the share of an adult's portions by age; under two years nothing is counted.

    Without a sex the mean of both is given.
    """
    shares = [
        float(row["adult_equivalent"])
        for row in table("age_scale")
        if row["food_group"] == food_group
        and int(row["age_from"]) <= age_years <= int(row["age_to"] or 200)
        and (row["sex"] in ("any", sex) or sex not in ("female", "male"))
    ]
    return sum(shares) / len(shares) if shares else 0.0


@cache
def settings() -> Settings:
    """Give the judgement values as they are when the household changes none."""
    return Settings(**{row["setting"]: float(row["value"]) for row in table("judgements")})


def setting_called(setting: str) -> str:
    """Say in plain words which judgement value a setting is.

    Raises KeyError for an unknown one.

    >>> setting_called("lean_share")
    'what makes a week lean'
    """
    return {row["setting"]: row["called"] for row in table("judgements")}[setting]
