"""The columns about what is kept fresh: stores, curing, what is bruised."""

from model.outlook.heading import Heading

STORE_HEADINGS: dict[str, Heading] = {
    "bruised_kg": Heading("Of it bruised", "kg", "bruised or cut: worked first, never stored"),
    "bruised_words": Heading("Of it bruised", "", "bruised or cut: worked first, never stored"),
    "cure_air": Heading("In", "", "the air that cures it"),
    "cure_c_high": Heading("Cured at, to", "C", "blank: no figure is published"),
    "cure_c_low": Heading("Cured at, from", "C", "blank: no figure is published"),
    "cure_from": Heading("Cured from", "", "the day it is lifted"),
    "cure_how": Heading("How", "", "it is cured"),
    "cure_percent_high": Heading("Humidity, to", "%", "blank: no figure is published"),
    "cure_percent_low": Heading("Humidity, from", "%", "blank: no figure is published"),
    "cure_until": Heading("Until", "", "first and last day by the published days"),
    "cure_until_high": Heading("Until, at most", "", "last day of curing"),
    "cure_until_low": Heading("Until, at least", "", "first day on which it may be cured"),
    "cured": Heading("Cure", "", "what, how much, and from when"),
    "keep_until": Heading("Keeps until", "", "by published store lives, for this air"),
    "keep_until_high": Heading("Keeps until, at best", "", "high end of the published life"),
    "keep_until_low": Heading("Keeps until, at least", "", "low end of the published life"),
    "keeps_weeks_high": Heading("Keeps, at best", "weeks", "in this air"),
    "keeps_weeks_low": Heading("Keeps, at least", "weeks", "in this air"),
    "lifted_kg": Heading("Lifted", "kg", "from the log, or expected"),
    "loss_share": Heading("Loses a week", "", "share of what is left: shrink, rot and trimming"),
    "sort_on": Heading("Sort on", "", "each month, because rot spreads"),
    "store_note": Heading("Wants", "", "temperature, humidity, and what stands against it"),
    "store_warning": Heading("Against it", "", "its air, its neighbours, or the notes"),
    "stored": Heading("In store", "", "how much, and of which day"),
    "wanted_c_high": Heading("Wants, to", "C", "temperature of the store"),
    "wanted_c_low": Heading("Wants, from", "C", "temperature of the store"),
    "wanted_percent_high": Heading("Humidity, to", "%", "relative humidity of the store"),
    "wanted_percent_low": Heading("Humidity, from", "%", "relative humidity of the store"),
}
