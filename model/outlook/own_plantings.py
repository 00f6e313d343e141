"""How plantings are counted in the workings: the household's own weight, and unit of a planting."""

from dataclasses import dataclass

from model.outlook.own_units import in_own


@dataclass(frozen=True, slots=True)
class OwnPlanting:
    """The household's own weight, and unit of a planting, in place of those used inside."""

    kg: float
    weight: str
    each: float
    per: str

    @property
    def one(self) -> str:
        """Name one unit of the planting."""
        return self.per.removesuffix(" of bed").removesuffix(" of row")

    def amount(self, number: float) -> str:
        """Give a number of them."""
        whole = "" if number == 1 or self.per != "plant" else "s"
        return f"{self.one}{whole}"


def own_planting(units: str, per: str) -> OwnPlanting:
    """Say how a planting that is measured ``per`` something is told in some units."""
    kg, weight = in_own(1.0, "kg", units)
    each, word = in_own(1.0, per, units)
    return OwnPlanting(kg, weight, each, word)
