"""Jars that nobody tastes, and frozen food that nobody keeps: what is done with them.

Nothing here ever says that food is safe. Smell, look and taste are no reasons to keep it.
"""

from model.reference.incidents import SUSPECT, THAWED, Step, steps_for
from model.reference.lookup import products
from model.season.kitchen import Preserve

COLD_ENOUGH_C = 4.0
# A vegetable in vinegar is acid only if the recipe was kept to, and a suspect jar is in doubt.
SURELY_ACID = ("fruit", "juice", "pie filling", "spread")


def discard_steps(preserve: Preserve, *, leaking: bool) -> tuple[Step, ...]:
    """List what is done with a bulging, leaking or spurting jar, in order.

    ``leaking`` says that it is open, leaks or spurts. Whatever is no fruit counts as low in
    acid here, tomatoes and pickles too.
    """
    if not leaking:
        return steps_for(SUSPECT, "sealed")
    return steps_for(SUSPECT, "open acid" if _acid(preserve) else "open low-acid")


def thaw_steps() -> tuple[Step, ...]:
    """List what is done when a freezer has died, in order."""
    return steps_for(THAWED)


def may_be_frozen_again(*, ice_crystals: bool, measured_c: float | None) -> bool:
    """Say whether a pack from a dead freezer may be frozen again; it is thrown away otherwise.

    ``measured_c`` is None where no thermometer was read: then only ice crystals count.
    """
    return ice_crystals or (measured_c is not None and measured_c <= COLD_ENOUGH_C)


def _acid(preserve: Preserve) -> bool:
    row = products().get(preserve.product)
    return row is not None and row["acidity"] == "high-acid" and row["group"] in SURELY_ACID
