"""A plan lived through many years, week by week, with the mass balance asserted every week."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from model.plan import Plan
from model.season.arrays import Ints, SeasonArrays, Singles
from model.simulation.kitchen_room import NEARLY, KitchenRoom
from model.simulation.luck import KitchenLuck
from model.simulation.rules import (
    WeekGuide,
    ahead_of_plan,
    eat_fresh,
    food_portions,
    fresh_portions_a_kg,
    open_jars,
    portions_aimed_at,
    put_up,
    still_good,
    week_guides,
)

Progress = Callable[[float], None]
YEARS_AT_ONCE = 2000
DRIFT = 1e-2


@dataclass(frozen=True, eq=False)
class LivedYears:
    """What came of a plan in each year.

    Parameters
    ----------
    shelf : shape (Y, R, W), units at each week's end.
    met, fresh : shape (Y, F, W), portions eaten in all, and of those fresh.
    usual : shape (F, W), portions wanted with the usual ``appetite`` (Y, F).
    filled, past : shape (Y, R), units over all weeks.
    wasted_kg : shape (Y, C), picked and neither eaten nor put up.
    minutes : shape (Y, W), kitchen work.
    """

    shelf: Singles
    met: Singles
    fresh: Singles
    usual: Singles
    appetite: Singles
    filled: Singles
    past: Singles
    wasted_kg: Singles
    minutes: Singles


@dataclass(frozen=True, eq=False)
class Follower:
    """A household that follows a plan.

    ``as_wanted``: it eats what it likes until it is gone; else it keeps to the plan's pace.
    """

    plan: Plan
    arrays: SeasonArrays
    cover_until: Ints
    as_wanted: bool


def live_through(
    follower: Follower,
    harvest_kg: Singles,
    luck: KitchenLuck,
    progress: Progress = lambda _: None,
) -> LivedYears:
    """Live a plan through sampled years.

    Parameters
    ----------
    harvest_kg : shape (Y, C, W), what each year's garden gives.
    progress : told the part that is done; may raise to stop.
    """
    years = len(harvest_kg)
    lived = _nothing_yet(follower, luck, years)
    for begins in range(0, years, YEARS_AT_ONCE):
        some = slice(begins, min(years, begins + YEARS_AT_ONCE))
        _Run(follower, harvest_kg[some], luck, some, lived).live()
        progress(some.stop / years)
    return lived


def _nothing_yet(follower: Follower, luck: KitchenLuck, years: int) -> LivedYears:
    """Give the record of years to come; in memory the years lie along the last axis."""
    arrays = follower.arrays
    weeks, rows, foods = len(arrays.weeks), len(arrays.preserves), len(arrays.foods)

    def empty(*shape: int) -> Singles:
        return np.zeros((*shape, years), dtype=np.float32).T

    return LivedYears(
        shelf=empty(weeks, rows),
        met=empty(weeks, foods),
        fresh=empty(weeks, foods),
        usual=follower.plan.wanted.astype(np.float32),
        appetite=luck.appetite[:, :years].T,
        filled=empty(rows),
        past=empty(rows),
        wasted_kg=empty(len(arrays.crops)),
        minutes=empty(weeks),
    )


class _Run:
    """One chunk of years on its way through the weeks; years lie along the last axis."""

    def __init__(
        self,
        follower: Follower,
        harvest_kg: Singles,
        luck: KitchenLuck,
        some: slice,
        lived: LivedYears,
    ) -> None:
        arrays = follower.arrays
        years, weeks = len(harvest_kg), len(follower.plan.weeks)
        rows, crops = len(arrays.preserves), len(arrays.crops)

        def empty(*shape: int) -> Singles:
            return np.zeros((*shape, years), dtype=np.float32)

        self.arrays, self.as_wanted = arrays, follower.as_wanted
        self.guides = week_guides(follower.plan, arrays, follower.cover_until)
        self.in_food = food_portions(arrays)
        self.harvest = np.ascontiguousarray(harvest_kg.transpose(2, 1, 0))
        self.appetite, self.luck, self.some = luck.appetite[:, some], luck, some
        self.before = follower.plan.before_kg.astype(np.float32)
        self.on_hand, self.picked = empty(crops), empty(crops)
        self.on_hand += np.array([self._held_from_before(c, -1) for c in range(crops)])[:, None]
        self.units = empty(rows) + arrays.opening_units[:, None].astype(np.float32)
        self.account = self.units.copy()
        self.fresh_in_food = fresh_portions_a_kg(arrays)
        self.gone, self.sealed = empty(len(arrays.jars)), empty(weeks, rows)
        self.shelf, self.met, self.fresh, self.filled, self.past, self.wasted, self.minutes = (
            record[some].T
            for record in (
                lived.shelf,
                lived.met,
                lived.fresh,
                lived.filled,
                lived.past,
                lived.wasted_kg,
                lived.minutes,
            )
        )

    def live(self) -> None:
        for week, guide in enumerate(self.guides):
            self._week(week, guide)

    def _week(self, week: int, guide: WeekGuide) -> None:
        arrays = self.arrays
        picked = self.harvest[week]
        had_kg = self.on_hand + picked
        self.on_hand = had_kg.copy()
        self.picked += picked
        aimed = portions_aimed_at(
            arrays, guide, self.units, self.appetite, as_wanted=self.as_wanted
        )
        nothing: Singles = np.zeros((len(arrays.crops), 1), dtype=np.float32)
        no_limit: Singles = np.full((len(arrays.crops), 1), np.inf, dtype=np.float32)
        planned, kept = (
            (no_limit, nothing) if self.as_wanted else (guide.eaten_kg, guide.on_hand_kg)
        )
        wanted: Singles = self.appetite * guide.wanted
        eaten = eat_fresh(arrays, self.on_hand, np.minimum(aimed, wanted), planned, nothing)
        made = self._put_up(week, guide)
        # what is neither put up nor kept is eaten up to the want, whatever the plan's pace
        more = np.maximum(np.maximum(aimed, wanted) - eaten, 0)
        eaten += eat_fresh(arrays, self.on_hand, more, no_limit, kept)
        self._check_kilograms(week, had_kg, made, eaten)
        self._hold(week)
        self._open(week, guide, made, np.maximum(aimed - eaten, 0))
        self.met[week] += eaten
        self.fresh[week] = eaten

    def _put_up(self, week: int, guide: WeekGuide) -> Singles:
        arrays = self.arrays
        made = np.zeros_like(self.units)
        if not self.on_hand.any() or not guide.put_up_in_all.any():
            return made
        room = KitchenRoom(arrays, week, self.units, self.gone, guide.opened)
        made = put_up(arrays, self.on_hand, np.maximum(guide.put_up_by - self.filled, 0), room)
        self.filled += made
        later = np.maximum(guide.put_up_in_all - self.filled, 0)
        later *= ahead_of_plan(arrays, guide, self.picked)
        early = put_up(arrays, self.on_hand, later, room)
        self.filled += early
        self.minutes[week] = room.minutes_used
        return made + early

    def _hold(self, week: int) -> None:
        """Keep what still holds to next week; the rest is given away or composted."""
        for c, span in enumerate(self.arrays.hold_weeks):
            if span > 1:
                begins = max(0, week - int(span) + 2)
                window = self.harvest[begins : week + 1, c].sum(axis=0)
                window += self._held_from_before(c, week)
                kept = np.minimum(self.on_hand[c], window)
            else:
                late_kg = 0.0 if week else self.arrays.good_next_week_kg[c]
                kept = np.minimum(self.on_hand[c], np.float32(late_kg))
            self.wasted[c] += self.on_hand[c] - kept
            self.on_hand[c] = kept

    def _held_from_before(self, c: int, week: int) -> float:
        """Give what was picked before and may still be held at a week's end (-1: as they begin).

        The newest of it is of the first week itself.
        """
        span = max(0, int(self.arrays.hold_weeks[c]) - 1 - week)
        earlier = self.before.shape[1]
        return float(self.before[c, earlier - min(span, earlier) :].sum())

    def _open(self, week: int, guide: WeekGuide, made: Singles, missing: Singles) -> None:
        arrays = self.arrays
        self.sealed[week] = made * (1 - self.luck.unsealed_in(week, self.some))
        losing = (1 - arrays.loss_per_week)[:, None].astype(np.float32)
        held = self.units * losing + self.sealed[week]
        ready = held.copy()
        for r in np.flatnonzero(arrays.ready_after_weeks):
            begins = max(0, week - int(arrays.ready_after_weeks[r]) + 1)
            ready[r] -= self.sealed[begins : week + 1, r].sum(axis=0)
        np.maximum(ready, 0, out=ready)
        given = np.minimum(ready, guide.given)
        opened = open_jars(arrays, guide, missing, ready - given)
        after = held - opened - given
        self.account += self.sealed[week] - self.units * (1 - losing) - opened - given
        self.units = self._good(week, after)
        past = np.maximum(after, 0) - self.units
        self.account -= past
        self._check_jars(week, after)
        self.past += past
        for r in np.flatnonzero(arrays.canned & (guide.given[:, 0] > 0)):
            self.gone[arrays.jar_of[r]] += given[r]
        self.shelf[week] = self.units
        self.met[week] = self.in_food @ opened

    def _good(self, week: int, units: Singles) -> Singles:
        """Give what is left after throwing away what is past its keeping life."""
        arrays = self.arrays
        left = np.maximum(units, 0)
        whole = arrays.opening_units * (1 - arrays.loss_per_week) ** (week + 1)
        stale = (arrays.opening_left[:, week] < whole - 1e-9) | (week >= arrays.keeps_weeks)
        for r in [int(r) for r in np.flatnonzero(stale)]:
            left[r] = np.minimum(left[r], still_good(arrays, week, self.sealed, r))
        return left

    def _check_jars(self, week: int, after: Singles) -> None:
        """Assert that no more was opened than stood there, and that the running account agrees."""
        wrong = np.maximum(-after, np.abs(self.account - self.units)).max(axis=1, initial=0)
        if (wrong > DRIFT).any():
            name = self.arrays.preserves[int(wrong.argmax())]
            raise AssertionError(f"week {week}: {name} appeared or vanished")

    def _check_kilograms(self, week: int, had_kg: Singles, made: Singles, eaten: Singles) -> None:
        """Assert that what left the hands was eaten or put up: portions of each food."""
        arrays = self.arrays
        in_unit = arrays.fresh_kg.T.astype(np.float32)
        gone_kg = had_kg - self.on_hand - in_unit @ made
        drift = np.abs(self.fresh_in_food @ gone_kg - eaten).max(axis=1, initial=0)
        # a jar that all but its thousandth is there for counts as whole, in each of two rounds
        whole = 2 * NEARLY * (arrays.canned[:, None] & (made > 0)).astype(np.float32)
        rounded = (self.fresh_in_food @ (in_unit @ whole)).max(axis=1, initial=0)
        if (drift > DRIFT * (1 + eaten.max(axis=1, initial=0)) + rounded).any():
            food = arrays.foods[int(drift.argmax())]
            raise AssertionError(f"week {week}: kilograms of {food} appeared or vanished")
