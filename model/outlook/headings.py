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
    "bad_batches": Heading("Bad batches", "", "in which a fifth or more of the jars did not seal"),
    "bad_difference": Heading("More then", "portions", "than the way in use, and its range"),
    "bad_jars": Heading("Jars not sealed", "", "in all of its batches"),
    "bad_more_high": Heading("Bad year, to", "portions", "95 of 100 such samples give less"),
    "bad_more_low": Heading("Bad year, from", "portions", "95 of 100 such samples give more"),
    "bad_more_portions": Heading("More in a bad year", "portions", "than by the way in use"),
    "bad_year_portions": Heading(
        "In a bad year", "portions", "met in the year that one in ten falls below"
    ),
    "bed": Heading("Bed", "", "where it grows"),
    "before": Heading("Before", "", "without the change"),
    "before_units": Heading("This year", "", "sealed units meant, or filled"),
    "begins": Heading("Begins", "", "Monday of the first week"),
    "begins_at": Heading("From", "", "clock time, UTC"),
    "brings": Heading("Brings", "", "portions met in a year, and jars put up"),
    "buy_by": Heading("Buy by", "", "end of the peak, or of the last week it is put up"),
    "buy_hours": Heading("Work", "h", "to put it up"),
    "buy_kg": Heading("Buy in", "kg", "as picked"),
    "by_chance": Heading("By chance alone", "", "how often chance puts so many together"),
    "by_hand": Heading(
        "Sealed by the hand rule", "jars", "sealed jars needed, by the rule of thumb"
    ),
    "by_hand_fill": Heading("By hand", "", "to put up by the hand rule, so that enough seal"),
    "carried_over": Heading("Carried over", "jars", "expected to stand there at the new crop"),
    "carry_units": Heading("Carried over", "", "still there at the new crop at this year's pace"),
    "catch_crop": Heading("Catch crop", "", "not in the notes, quick, and likely to make it"),
    "chance_after": Heading(
        "Chance then", "", "share of simulated years in which it lasts with the change"
    ),
    "chance_before": Heading(
        "Chance now", "", "share of simulated years in which it lasts without it"
    ),
    "chance_lasts": Heading("Chance", "", "share of simulated years in which it lasts"),
    "chance_today": Heading("Started today", "", "chance of being picked"),
    "condition": Heading("Condition", "", "what is looked at before age: seals, rot, quality"),
    "counted_on": Heading("Counted", "", "last day"),
    "cover_portions": Heading("Stands there", "portions", "as the weeks without fresh begin"),
    "cover_share": Heading("Part", "", "of the group's winter cover"),
    "crop": Heading("Crop", "", "what grows"),
    "day": Heading("Day", "", "or the Monday of its week"),
    "difference": Heading("Difference", "", "after less before"),
    "difference_portions": Heading("Difference", "portions", "next year's less this year's"),
    "done_at": Heading("Done at", "", "time of day"),
    "done_minutes": Heading("Done after", "min", "from the start of work"),
    "eat_order": Heading("Order", "", "1 is looked at and eaten first"),
    "eaten_kg": Heading("Eat fresh", "kg", "to eat fresh this week"),
    "eaten_units": Heading("Eaten", "", "taken from the shelf to eat"),
    "ends": Heading("Ends", "", "Monday of the last week"),
    "ends_at": Heading("Until", "", "clock time, UTC"),
    "evidence": Heading("Of", "", "what the figure rests on"),
    "expected_kg": Heading("Expected", "kg", "harvest in an ordinary year"),
    "expected_so_far_kg": Heading("Expected by now", "kg", "harvest up to today"),
    "family_before": Heading("Its family here in", "", "last season of the notes; blank: rested"),
    "fill_mean": Heading("To fill", "jars", "so that enough seal on average"),
    "fill_sure": Heading("To fill, to be sure", "jars", "so that enough seal nine times in ten"),
    "filled_units": Heading("Filled", "", "put up, before seals"),
    "first_picking": Heading("First picking", "", "expected date"),
    "first_short": Heading("First", "", "first picking, expected"),
    "food": Heading("Food", "", "on the plate"),
    "food_group": Heading("Group", "", "of foods"),
    "free_beds": Heading("Room", "", "beds free until it is picked"),
    "free_hours": Heading("Free", "h", "kitchen hours"),
    "fresh_kg": Heading("Fresh", "kg", "as picked"),
    "fresh_portions": Heading("Fresh", "portions", "eaten fresh"),
    "given_units": Heading("Given", "", "given away"),
    "ground": Heading("Ground", "", "more than the plan takes"),
    "group": Heading("Kind", "", "how it is kept"),
    "hedge": Heading("Hedge", "", "against a bad year"),
    "held_kg": Heading("Hold", "kg", "for next week"),
    "high": Heading("One year in ten more", "", "90th percentile"),
    "high_kg": Heading("Good year", "kg", "one year in ten gives more"),
    "high_portions": Heading("Good year", "portions", "one year in ten has more"),
    "hours": Heading("Needed", "h", "kitchen hours"),
    "in_common": Heading("In common", "", "box of lids, size of jar or preserve"),
    "jar": Heading("Jar", "", "size"),
    "jars": Heading("Jars", "jars", "on the shelf at the week's end, by the plan"),
    "keeps_until": Heading("All past keeping by", "", "blank where some keeps to the new crop"),
    "kg": Heading("Weight", "kg", "as picked"),
    "kg_words": Heading("Weight", "", "as picked"),
    "kind": Heading("Kind", "", "of limit"),
    "kitchen": Heading("Kitchen", "", "hours in a year"),
    "known_on": Heading(
        "Known for sure", "", "usual last day of picking; blank where none is planted"
    ),
    "lasts_after": Heading("Lasts until, after", "", "with the change"),
    "lasts_before": Heading("Lasts until, before", "", "without the change"),
    "lasts_high": Heading("In a good year until", "", "one year in ten lasts longer"),
    "lasts_low": Heading("In a bad year until", "", "one year in ten gives out sooner"),
    "lasts_until": Heading("Lasts until", "", "in the middle of the simulated years"),
    "latest_five": Heading(
        "5 in 10 until", "", "last day with that chance of being picked; blank: none has it"
    ),
    "latest_nine": Heading(
        "9 in 10 until", "", "last day with that chance of being picked; blank: none has it"
    ),
    "latest_two": Heading(
        "2 in 10 until", "", "last day with that chance of being picked; blank: none has it"
    ),
    "learned": Heading("Learned", "", "from the household's own record"),
    "left_out": Heading(
        "Left out", "", "say nothing: abnormal seasons, counts the book cannot explain"
    ),
    "left": Heading("Left", "", "by the book at the end"),
    "left_portions": Heading("Left over", "portions", "on the shelf at the new crop"),
    "left_units": Heading("Left", "", "by the book at the end"),
    "less_from": Heading("From", "", "first week without fresh"),
    "less_portions": Heading(
        "Or eat less",
        "portions a week",
        "a week, and it reaches the new crop; blank: it does not keep",
    ),
    "level_portions": Heading("Level amount", "portions a week", "just reaches the new crop"),
    "likely_kg": Heading("Likely", "", "eight years in ten lie between these"),
    "limit": Heading("Limit", "", "what can run out"),
    "loads": Heading("Loads", "", "canner loads"),
    "lost_units": Heading("Lost", "", "let go, spoiled, broken, thawed"),
    "low": Heading("One year in ten less", "", "10th percentile"),
    "low_kg": Heading("Bad year", "kg", "one year in ten gives less"),
    "low_portions": Heading("Bad year", "portions", "one year in ten has less"),
    "meant": Heading("Meant", "", "sealed, by the kept plan"),
    "meant_units": Heading("Meant", "", "sealed units the kept plan wanted"),
    "met_after": Heading("Met, after", "portions", "with the change"),
    "met_before": Heading("Met, before", "portions", "without the change"),
    "met_portions": Heading("Met", "portions", "portions of the want"),
    "method": Heading("Method", "", "how it is kept"),
    "middle_portions": Heading("Stock", "portions", "on the shelf, middle of the years"),
    "minutes": Heading("Kitchen time", "min", "hands and canner"),
    "missing_weeks": Heading("Weeks without", "weeks", "after it had stood there"),
    "more_high": Heading("To", "portions", "95 of 100 such samples give less"),
    "more_low": Heading("From", "portions", "95 of 100 such samples give more"),
    "more_portions": Heading("More", "portions", "met than by the way in use"),
    "new_crop": Heading(
        "New crop", "", "late side of next year's first picking; blank where none grows"
    ),
    "next_units": Heading("Next year", "", "sealed units to aim at"),
    "number": Heading("How many", "", "in the unit beside it"),
    "on_plate": Heading("On the plate", "", "counts for the whole plate"),
    "on_shelf": Heading("On the shelf", "jars", "counted"),
    "opened": Heading("Opened", "jars", "this week"),
    "opening_units": Heading("At the start", "", "by the book"),
    "other_batches": Heading("Bad among the others", "", "batches"),
    "own": Heading("Own figure", "", "usual figure and own record, weighed"),
    "own_range": Heading("Eight times in ten", "", "between these"),
    "own_high": Heading("To", "", "eight times in ten it lies between these"),
    "own_low": Heading("From", "", "eight times in ten it lies between these"),
    "own_seasons": Heading("Own seasons", "", "that the yield rests on"),
    "per": Heading("Counted in", "", "unit of the planting"),
    "picked_kg": Heading("Picked", "kg", "from the log"),
    "place": Heading("Place", "", "shelf, freezer or store"),
    "plan_portions": Heading("Plan", "portions", "on the shelf by the plan"),
    "plants": Heading("Plants", "", "rounded up"),
    "portions": Heading("Portions", "portions", "eaten this week"),
    "preserve": Heading("Preserve", "", "what is put up"),
    "product": Heading("Tested product", "", "of the process table"),
    "product_reason": Heading("Why", "", "garden, record or kitchen"),
    "product_status": Heading("Stands", "", "ahead, on track, behind or enough"),
    "put_up": Heading("Makes", "", "jars, packs, weight or volume"),
    "put_up_kg": Heading("Put up", "kg", "as picked"),
    "put_up_on": Heading("Put up on", "", "day it was made"),
    "ran_out": Heading("Ran out", "", "day from which none was left; blank: some is"),
    "range_kg": Heading("Eight years in ten", "", "between these"),
    "ration": Heading("Smallest change", "", "so that it reaches the new crop"),
    "reason": Heading("Why it differs", "", "from the hand rule"),
    "remedy": Heading("What would halve it", "", "to bring it down to half"),
    "rests_on": Heading("Rests on", "", "how many"),
    "sealed": Heading("Sealed", "", "so far this season"),
    "sealed_needed": Heading("Sealed jars needed", "jars", "that the plan counts on"),
    "sealed_units": Heading("Sealed", "", "came onto the shelf"),
    "share": Heading("Used", "", "part of the limit"),
    "short_portions": Heading("Short", "portions", "wanted less met"),
    "source": Heading("From", "", "fresh, jars, freezer, store"),
    "sown": Heading("Sow", "", "date; blank where it is bought or divided"),
    "spare_kg": Heading("Give away", "kg", "beyond what can be used"),
    "standing": Heading("Standing", "", "enough, just about, gives out or none left"),
    "standing_units": Heading("There", "", "jars, packs, kg or litres"),
    "stands_by": Heading("Together by", "", "place or method"),
    "stands_in": Heading("In", "", "the place, or the method"),
    "start": Heading("Sow or plant", "", "date"),
    "start_by": Heading("By", "", "sowing in the open, or planting out"),
    "start_from": Heading(
        "From", "", "spring frosts past in nine years of ten; blank for hardy crops"
    ),
    "start_short": Heading("Start", "", "sow, or sow and plant out"),
    "status": Heading("Season", "", "ahead, on track or behind"),
    "step": Heading("One more", "", "of the limit"),
    "steps": Heading("So many at once", "", "the fewest that bring anything; 0: none do"),
    "still_units": Heading("To come", "", "sealed units, by the plan of today"),
    "task": Heading("Task", "", "what to do"),
    "to_come": Heading("To come", "", "by the plan of today"),
    "to_come_kg": Heading("Still to come", "kg", "harvest after today"),
    "to_fill": Heading("To put up", "jars", "so that enough seal"),
    "unconfirmed_units": Heading("Not confirmed", "", "filled, seals not looked at"),
    "unit": Heading("Unit", "", "what is counted"),
    "units": Heading("Put up", "", "jars, packs, kg or litres"),
    "unknown_units": Heading(
        "Unknown", "", "what counts found more (+) or fewer (-) than the book"
    ),
    "use_up_portions": Heading("To use it up", "portions a week", "before it is past keeping"),
    "used": Heading("Used", "", "of the limit"),
    "used_units": Heading("Used", "", "eaten, given or gone unknown"),
    "usual": Heading("Usual figure", "", "published, or as the notes say"),
    "verdict": Heading("Verdict", "", "ran out, right, too much or not again"),
    "wanted_portions": Heading("Wanted", "portions", "over the weeks to cover"),
    "warning": Heading("Warning", "", "what is at stake"),
    "way": Heading("Way to choose", "", "of what to plant"),
    "week": Heading("Week of", "", "Monday"),
    "week_portions": Heading("Wanted a week", "portions", "while it has to last"),
    "weeks_left": Heading(
        "Weeks left", "weeks", "of keeping, of canned jars of their best quality; below 0: past it"
    ),
    "weeks_short": Heading("Weeks short", "", "in which half the plate cannot be filled"),
    "what": Heading("What", "", "crop, food, box, size or preserve"),
    "when": Heading("Week of", "", "Monday of the week it counts most, or first runs out"),
    "why": Heading("Why now", "", "keeping life, age, or the plan's pace"),
    "why_first": Heading("Why", "", "condition, keeping life or age"),
    "why_short": Heading("Why", "", "why it differs from the hand rule; in full under The working"),
    "working": Heading("Worked out", "", "from what was used and said"),
    "written": Heading("In the notes", "", "how much the household wrote down"),
}
