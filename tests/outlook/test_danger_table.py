"""What could hurt a household: only what stands there, the worst first, the cautious way."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

import model
from model.outlook.danger_table import BAD_MATE, LOW_ACID, NOT_LOOKED_AT, UNSEALED, danger_table
from model.outlook.eat_first_table import LOOK, eat_first_table
from model.outlook.headings import HEADINGS
from model.planning import PlannedSeason
from model.season.record import LOST, SUSPECT, SealCheck, Taken
from model.season.season import Season
from tests.recorded import JARS, PACKS, batch, count, recorded
from tests.small_season import small_season

DAY, TODAY = date(2027, 8, 14), date(2027, 8, 16)
EATERS = "eater,age_years,sex\nAnn,{},female\nBen,42,male\n"


def dangers(season: Season):
    planned = model.plan_season(season, TODAY, years=2)
    table = danger_table(planned, eat_first_table(planned))
    assert set(table.columns) <= set(HEADINGS)
    return table


def test_packs_in_the_freezer_are_no_danger_and_nothing_is_listed_that_does_not_stand_there() -> (
    None
):
    assert dangers(recorded(counts=(count(DAY, 5, preserve=PACKS),))).empty


def test_jars_not_looked_at_unsealed_ones_and_mates_of_a_bad_one_come_first() -> None:
    season = recorded(
        batches=(batch("A", DAY, 7), batch("B", TODAY, 6), batch("C", DAY, 7)),
        checks=(SealCheck("A", TODAY, 5, "refrigerated"), SealCheck("C", TODAY, 7, "")),
    )
    bad = (Taken(TODAY, JARS, 1, LOST, SUSPECT, "C"),)
    season = replace(season, record=replace(season.record, taken=bad))

    table = dangers(season)
    assert list(table["danger"][:3]) == [BAD_MATE, UNSEALED, NOT_LOOKED_AT]
    assert list(table["standing_units"][1:3]) == [2, 6]
    assert table["danger_source"].str.len().gt(10).all()


LATE = date(2027, 12, 20)


def late(*taken: Taken) -> tuple[PlannedSeason, Season]:
    """Plan months after jars were sealed, of which nobody wrote down that any was eaten."""
    season = recorded(
        batches=(batch("A", DAY, 7),), checks=(SealCheck("A", DAY + timedelta(days=1), 7, ""),)
    )
    season = replace(season, record=replace(season.record, taken=taken))
    return model.plan_season(season, LATE, years=2), season


def test_what_was_likely_eaten_but_is_in_the_book_still_counts_among_the_dangers() -> None:
    planned, _ = late()
    likely = sum(one.units for one in planned.case.stock if one.preserve == JARS)
    table = danger_table(planned, eat_first_table(planned))

    assert likely < 6
    assert table[table["preserve"] == JARS]["standing_units"].tolist() == [7]


def test_jars_like_a_bad_one_are_held_back_whole_however_long_nobody_looks() -> None:
    planned, _ = late(Taken(LATE, JARS, 1, LOST, SUSPECT, "A"))
    first = eat_first_table(planned)

    assert first[first["condition"] == LOOK]["standing_units"].tolist() == [6]
    table = danger_table(planned, first)
    assert table[table["danger"] == BAD_MATE]["standing_units"].tolist() == [6]


@pytest.mark.parametrize(("age", "at_risk"), [(4, True), (5, False), (64, False), (65, True)])
def test_the_very_young_and_the_old_are_at_higher_risk(age: int, *, at_risk: bool) -> None:
    """The ages are those of Rutgers NJAES: under 5 years, and 65 years and over."""
    assert small_season(eaters=EATERS.format(age)).at_risk is at_risk


def test_the_notes_can_say_what_ages_do_not() -> None:
    household = "household,invented,altitude_m,at_risk\nTiny,yes,640,yes\n"

    assert small_season(household=household).at_risk
    assert not small_season().at_risk


def test_for_people_at_risk_low_acid_food_is_boiled_before_it_is_tasted(
    southern_plan: PlannedSeason,
) -> None:
    """Ten minutes and one more for each 1,000 ft above 1,000 ft: Colorado State University."""
    planned, season = southern_plan, southern_plan.case.season
    first = eat_first_table(planned)
    cautious, usual = (
        danger_table(replace(planned, case=replace(planned.case, season=own)), first)
        for own in (replace(season, at_risk=True), replace(season, at_risk=False))
    )
    of = cautious.set_index("danger").loc[[LOW_ACID], "what_to_do"]

    assert of.str.contains("boil it ten minutes, above 1,000 ft one minute more").all()
    assert of.str.contains("This saves no doubtful jar").all()
    assert not usual["what_to_do"].str.contains("ten minutes").any()
