"""Every column of the outlook tables: what it is called on a screen, its unit and meaning."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Heading:
    """One column: the words of its heading, its unit (blank for none) and what it means."""

    words: str
    unit: str
    meaning: str

    @property
    def with_unit(self) -> str:
        """Give the words with the unit behind them, as over a column of numbers."""
        return f"{self.words} ({self.unit})" if self.unit else self.words


HEADINGS: dict[str, Heading] = {
    "action": Heading("Do", "", "with this part"),
    "after": Heading("After", "", "with the change"),
    "amount": Heading("Planned", "", "how much to grow, in the planting's own unit"),
    "area_m2": Heading("Area", "m2", "bed that it takes"),
    "available": Heading("Available", "", "of the limit"),
    "bad_difference": Heading("More then", "portions", "than the way in use, and its range"),
    "bad_more_high": Heading("Bad year, to", "portions", "95 of 100 such samples give less"),
    "bad_more_low": Heading("Bad year, from", "portions", "95 of 100 such samples give more"),
    "bad_more_portions": Heading("More in a bad year", "portions", "than by the way in use"),
    "bad_year_portions": Heading(
        "In a bad year", "portions", "met in the year that one in ten falls below"
    ),
    "bed": Heading("Bed", "", "where it grows"),
    "before": Heading("Before", "", "without the change"),
    "begins": Heading("Begins", "", "Monday of the first week"),
    "brings": Heading("Brings", "", "portions met in a year, and jars put up"),
    "by_hand": Heading(
        "Sealed by the hand rule", "jars", "sealed jars needed, by the rule of thumb"
    ),
    "by_hand_fill": Heading("By hand", "", "to put up by the hand rule, so that enough seal"),
    "carried_over": Heading("Carried over", "jars", "expected to stand there at the new crop"),
    "chance_lasts": Heading("Chance", "", "share of simulated years in which it lasts"),
    "crop": Heading("Crop", "", "what grows"),
    "difference": Heading("Difference", "", "after less before"),
    "done_at": Heading("Done at", "", "time of day"),
    "done_minutes": Heading("Done after", "min", "from the start of work"),
    "eaten_kg": Heading("Eat fresh", "kg", "to eat fresh this week"),
    "ends": Heading("Ends", "", "Monday of the last week"),
    "expected_kg": Heading("Expected", "kg", "harvest in an ordinary year"),
    "expected_so_far_kg": Heading("Expected by now", "kg", "harvest up to today"),
    "family_before": Heading("Its family here in", "", "last season of the notes; blank: rested"),
    "first_picking": Heading("First picking", "", "expected date"),
    "first_short": Heading("First", "", "first picking, expected"),
    "food": Heading("Food", "", "on the plate"),
    "free_hours": Heading("Free", "h", "kitchen hours"),
    "fresh_kg": Heading("Fresh", "kg", "as picked"),
    "fresh_portions": Heading("Fresh", "portions", "eaten fresh"),
    "ground": Heading("Ground", "", "more than the plan takes"),
    "group": Heading("Kind", "", "how it is kept"),
    "hedge": Heading("Hedge", "", "against a bad year"),
    "held_kg": Heading("Hold", "kg", "for next week"),
    "high": Heading("One year in ten more", "", "90th percentile"),
    "high_kg": Heading("Good year", "kg", "one year in ten gives more"),
    "high_portions": Heading("Good year", "portions", "one year in ten has more"),
    "hours": Heading("Needed", "h", "kitchen hours"),
    "jar": Heading("Jar", "", "size"),
    "jars": Heading("Jars", "jars", "on the shelf at the week's end, by the plan"),
    "keeps_until": Heading("All past keeping by", "", "blank where some keeps to the new crop"),
    "kg": Heading("Weight", "kg", "as picked"),
    "kg_words": Heading("Weight", "", "as picked"),
    "kind": Heading("Kind", "", "of limit"),
    "kitchen": Heading("Kitchen", "", "hours in a year"),
    "lasts_after": Heading("Lasts until, after", "", "with the change"),
    "lasts_before": Heading("Lasts until, before", "", "without the change"),
    "lasts_high": Heading("In a good year until", "", "one year in ten lasts longer"),
    "lasts_low": Heading("In a bad year until", "", "one year in ten gives out sooner"),
    "lasts_until": Heading("Lasts until", "", "in the middle of the simulated years"),
    "left_portions": Heading("Left over", "portions", "on the shelf at the new crop"),
    "level_portions": Heading("Level amount", "portions a week", "just reaches the new crop"),
    "likely_kg": Heading("Likely", "", "eight years in ten lie between these"),
    "limit": Heading("Limit", "", "what can run out"),
    "loads": Heading("Loads", "", "canner loads"),
    "low": Heading("One year in ten less", "", "10th percentile"),
    "low_kg": Heading("Bad year", "kg", "one year in ten gives less"),
    "low_portions": Heading("Bad year", "portions", "one year in ten has less"),
    "met_after": Heading("Met, after", "portions", "with the change"),
    "met_before": Heading("Met, before", "portions", "without the change"),
    "met_portions": Heading("Met", "portions", "portions of the want"),
    "method": Heading("Method", "", "how it is kept"),
    "middle_portions": Heading("Stock", "portions", "on the shelf, middle of the years"),
    "minutes": Heading("Kitchen time", "min", "hands and canner"),
    "more_high": Heading("To", "portions", "95 of 100 such samples give less"),
    "more_low": Heading("From", "portions", "95 of 100 such samples give more"),
    "more_portions": Heading("More", "portions", "met than by the way in use"),
    "new_crop": Heading(
        "New crop", "", "late side of next year's first picking; blank where none grows"
    ),
    "on_plate": Heading("On the plate", "", "counts for the whole plate"),
    "on_shelf": Heading("On the shelf", "jars", "counted"),
    "opened": Heading("Opened", "jars", "this week"),
    "own_seasons": Heading("Own seasons", "", "that the yield rests on"),
    "per": Heading("Counted in", "", "unit of the planting"),
    "picked_kg": Heading("Picked", "kg", "from the log"),
    "plan_portions": Heading("Plan", "portions", "on the shelf by the plan"),
    "plants": Heading("Plants", "", "rounded up"),
    "portions": Heading("Portions", "portions", "eaten this week"),
    "preserve": Heading("Preserve", "", "what is put up"),
    "product": Heading("Tested product", "", "of the process table"),
    "put_up": Heading("Makes", "", "jars, packs, weight or volume"),
    "put_up_kg": Heading("Put up", "kg", "as picked"),
    "range_kg": Heading("Eight years in ten", "", "between these"),
    "reason": Heading("Why it differs", "", "from the hand rule"),
    "sealed_needed": Heading("Sealed jars needed", "jars", "that the plan counts on"),
    "share": Heading("Used", "", "part of the limit"),
    "short_portions": Heading("Short", "portions", "wanted less met"),
    "sown": Heading("Sow", "", "date; blank where it is bought or divided"),
    "source": Heading("From", "", "fresh, jars, freezer, store"),
    "spare_kg": Heading("Give away", "kg", "beyond what can be used"),
    "standing": Heading("Standing", "", "enough, just about, gives out or none left"),
    "start": Heading("Sow or plant", "", "date"),
    "start_short": Heading("Start", "", "sow, or sow and plant out"),
    "status": Heading("Season", "", "ahead, on track or behind"),
    "step": Heading("One more", "", "of the limit"),
    "steps": Heading("So many at once", "", "the fewest that bring anything; 0: none do"),
    "to_come_kg": Heading("Still to come", "kg", "harvest after today"),
    "to_fill": Heading("To put up", "jars", "so that enough seal"),
    "unit": Heading("Unit", "", "what is counted"),
    "units": Heading("Put up", "", "jars, packs, kg or litres"),
    "use_up_portions": Heading("To use it up", "portions a week", "before it is past keeping"),
    "used": Heading("Used", "", "of the limit"),
    "wanted_portions": Heading("Wanted", "portions", "over the weeks to cover"),
    "way": Heading("Way to choose", "", "of what to plant"),
    "week": Heading("Week of", "", "Monday"),
    "weeks_short": Heading("Weeks short", "", "in which half the plate cannot be filled"),
    "when": Heading("Week of", "", "Monday of the week it counts most, or first runs out"),
    "why": Heading("Why now", "", "keeping life, age, or the plan's pace"),
    "why_short": Heading("Why", "", "why it differs from the hand rule; in full under The working"),
    "written": Heading("In the notes", "", "how much the household wrote down"),
}
