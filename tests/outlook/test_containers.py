from dataclasses import replace

import pytest

import model
from model.outlook.containers import container_kg
from model.reference.lookup import containers
from model.season.record import Container, Record


def picked_into(season: model.Season, *known: Container) -> model.Season:
    return replace(season, record=Record(containers=known))


def test_without_containers_of_its_own_a_household_starts_with_those_of_the_table(
    tiny: model.Season,
) -> None:
    assert container_kg(picked_into(tiny), "tomato") == containers("tomato")
    assert set(container_kg(picked_into(tiny), "plum")) == {"kg", "lb", "bunch"}


@pytest.mark.parametrize("turned", [False, True])
def test_the_households_weight_for_the_crop_goes_first_in_whatever_order_it_is_written(
    tiny: model.Season, turned: bool
) -> None:
    any_crop, own = Container("bucket", "", 5.0), Container("bucket", "tomato", 7.0)
    season = picked_into(tiny, *((own, any_crop) if turned else (any_crop, own)))

    assert container_kg(season, "tomato")["bucket"] == 7.0
    assert container_kg(season, "potato")["bucket"] == 5.0


def test_what_holds_another_crop_is_not_offered(tiny: model.Season) -> None:
    season = picked_into(tiny, Container("crate", "apple", 12.0))

    assert container_kg(season, "apple")["crate"] == 12.0
    assert "crate" not in container_kg(season, "tomato")


def test_a_kilogram_and_a_pound_stay_what_they_are(tiny: model.Season) -> None:
    season = picked_into(tiny, Container("kg", "", 3.0), Container("lb", "tomato", 3.0))

    # the international avoirdupois pound is 0.45359237 kg exactly (1959 agreement)
    assert container_kg(season, "tomato")["kg"] == 1.0
    assert container_kg(season, "tomato")["lb"] == 0.45359237
