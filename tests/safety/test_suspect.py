"""Jars that nobody tastes. Sources: USDA AIB 539 guide 1 (copied text), MSU 01600953, WSU."""

import pytest

from model.reference.incidents import Step
from model.safety.suspect import (
    CELSIUS,
    FAHRENHEIT,
    discard_steps,
    may_be_frozen_again,
    thaw_steps,
)
from tests.recorded import JARS, PACKS
from tests.small_season import small_season


def text(steps: tuple[Step, ...]) -> str:
    return "\n".join(step.words for step in steps)


def test_nobody_tastes_a_suspect_jar_and_illness_goes_to_hospital() -> None:
    for preserve in small_season().preserves:
        for leaking in (True, False):
            steps = discard_steps(preserve, leaking=leaking)

            assert steps[0].words.startswith("Do not taste it")
            assert "hospital at once" in steps[-1].words
            assert all(step.source for step in steps)


def test_a_jar_that_is_still_sealed_is_bagged_and_not_opened() -> None:
    steps = text(discard_steps(small_season().preserve(JARS), leaking=False))

    assert "second bag" in steps
    assert "boil" not in steps


@pytest.mark.parametrize("preserve", [JARS, "dilled beans", PACKS])
def test_open_tomatoes_and_vegetables_are_boiled_for_half_an_hour_under_water(
    preserve: str,
) -> None:
    """MSU 01600953: 30 minutes; USDA guide 1: covered by at least an inch, tomatoes too."""
    steps = text(discard_steps(small_season().preserve(preserve), leaking=True))

    assert "at least 2.5 cm (1 in) of water" in steps
    assert "boil for 30 minutes" in steps


def test_nothing_says_that_food_is_safe() -> None:
    season = small_season()
    steps = [*discard_steps(season.preserve(JARS), leaking=True), *thaw_steps()]

    assert not any("safe" in step.words.lower() for step in steps)


@pytest.mark.parametrize(
    ("ice_crystals", "measured", "scale", "kept"),
    [
        # FoodSafety.gov: ice crystals, or 40 F (4 C) or below
        (True, None, CELSIUS, True),
        (False, 4.0, CELSIUS, True),
        (False, 4.1, CELSIUS, False),
        (False, 40.0, FAHRENHEIT, True),
        (False, 41.0, FAHRENHEIT, False),
        (False, None, CELSIUS, False),
    ],
)
def test_what_thawed_at_an_unknown_temperature_is_thrown_away(
    *, ice_crystals: bool, measured: float | None, scale: str, kept: bool
) -> None:
    known = {"ice_crystals": ice_crystals, "measured": measured, "scale": scale}

    assert may_be_frozen_again(**known, froze_again=False) == kept


def test_what_may_have_thawed_and_frozen_unseen_is_thrown_away_whatever_it_is_like() -> None:
    """FoodSafety.gov: thawed for an unknown time, it is thrown away."""
    assert not may_be_frozen_again(
        ice_crystals=True, measured=-18.0, scale=CELSIUS, froze_again=True
    )
