"""Jars that nobody tastes, and frozen food that nobody keeps: what is done with them.

Nothing here ever says that food is safe. Smell, look and taste are no reasons to keep it.
"""

from model.reference.incidents import SUSPECT, THAWED, Step, steps_for
from model.reference.lookup import products
from model.season.kitchen import Preserve

CELSIUS, FAHRENHEIT = "°C", "°F"
# As printed on each scale, so that a reading is held to a printed figure and not to a sum.
COLD_ENOUGH = {CELSIUS: 4.0, FAHRENHEIT: 40.0}
# A vegetable in vinegar is acid only if the recipe was kept to, and a suspect jar is in doubt.
SURELY_ACID = ("fruit", "juice", "pie filling", "spread")


def discard_steps(preserve: Preserve, *, leaking: bool) -> tuple[Step, ...]:
    """List what is done with a bulging, leaking or spurting jar, in order.

    ``leaking`` says that it is open, leaks or spurts. Whatever is no fruit counts as low in
    acid here, tomatoes and pickles too.

    Source: the reference table ``incidents``, each step with its own.

    >>> model.discard_steps(season.preserve("ketchup"), leaking=True)[0].words
    'Do not taste it, and do not open it to look.'
    """
    if not leaking:
        return steps_for(SUSPECT, "sealed")
    return steps_for(SUSPECT, "open acid" if _acid(preserve) else "open low-acid")


def thaw_steps() -> tuple[Step, ...]:
    """List what is done when a freezer has died, in order.

    Source: the reference table ``incidents``, each step with its own.

    >>> model.thaw_steps()[0].source
    'foodsafety-power'
    """
    return steps_for(THAWED)


def may_be_frozen_again(
    *, ice_crystals: bool, measured: float | None, scale: str, froze_again: bool
) -> bool:
    """Say whether a pack from a dead freezer may be frozen again; it is thrown away otherwise.

    ``measured`` is in degrees of ``scale``, None where no thermometer was read: then only ice
    crystals count. ``froze_again`` says that it may have thawed and frozen before anybody
    looked: for how long it was warm is then unknown, and ice in it proves nothing.

    Raises KeyError for a scale that is neither ``CELSIUS`` nor ``FAHRENHEIT``. Source: as
    ``thaw_steps``.

    >>> model.may_be_frozen_again(
    ...     ice_crystals=False, measured=5.0, scale=model.CELSIUS, froze_again=False
    ... )
    False
    """
    if froze_again:
        return False
    return ice_crystals or (measured is not None and measured <= COLD_ENOUGH[scale])


def _acid(preserve: Preserve) -> bool:
    row = products().get(preserve.product)
    return row is not None and row["acidity"] == "high-acid" and row["group"] in SURELY_ACID
