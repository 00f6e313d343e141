"""The household's judgement values: every one can be changed, and says so where it shows."""

from dataclasses import dataclass

# Which years the household wants to be fed in; the first words weigh bad years least.
PLAN_FOR = ("an ordinary year", "eight years in ten", "the bad year too")
USUALLY_PLAN_FOR = PLAN_FOR[1]


@dataclass(frozen=True, slots=True)
class Settings:
    """Values that no table settles; meanings and units stand in reference/judgements.csv."""

    seal_failure_share: float
    lean_share: float
    margin_share: float
    hour_worth_portions: float
    garden_hours_per_m2: float
    fresh_first_worth: float
    middle_worth: float
    last_worth: float
    beyond_want_worth: float
    beyond_share_worth: float
    reserve_worth: float
    waste_worth_per_kg: float
    lid_worth: float
    garden_spread_factor: float
    garden_shared_share: float
    family_correlation: float
    season_correlation: float
    near_total_loss_left: float
    frost_caught_share: float
    own_date_spread_days: float
    autumn_slow_days: float
    light_frost_days: float
    hardy_weeks_before_frost: float
    freezer_fill_share: float
    freezer_load_g_per_l_day: float
    fill_minutes_per_load: float
    come_up_minutes_boiling: float
    rest_minutes_boiling: float
    come_up_minutes_pressure: float
    cool_minutes_pressure: float
    jam_minutes_per_l: float
    sauce_minutes_per_l: float
    dryer_minutes_per_kg: float
    ferment_weeks: float
    habit_growing: float
    habit_autumn: float
    habit_after_midwinter: float
    put_up_within_weeks: float
    pint_footprint_cm2: float
    cellar_life_share: float
    store_slack_c: float
    store_slack_percent: float
    appetite_cv: float
    frozen_past_best_weeks: float
    dried_portion_g: float
    bedtime_hour: float
