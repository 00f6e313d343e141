"""The columns about sowing: until when, how much at once, and where there is room."""

from model.outlook.heading import Heading

SOWING_HEADINGS: dict[str, Heading] = {
    "at_once_kg": Heading("Ripe at once", "kg", "within the weeks that a picking holds"),
    "beds_free": Heading("Beds free", "", "with room for it until it is picked"),
    "catch_crop": Heading("Catch crop", "", "not in the notes, quick, and likely to make it"),
    "chance_today": Heading("Started today", "", "chance of being picked, or that it is too early"),
    "days_apart": Heading("Days apart", "days", "from one sowing to the next; blank: one does"),
    "done": Heading("Done", "", "the last step that was written down: sown, or planted out"),
    "free_bed": Heading("Most room in", "", "bed"),
    "free_beds": Heading("Room", "", "beds free until it is picked"),
    "free_m2": Heading("Most room", "m2", "in one bed"),
    "heaviest_kg": Heading("Heaviest week", "kg", "of an ordinary year"),
    "latest_five": Heading(
        "5 in 10 until", "", "last day with that chance of being picked; blank: none has it"
    ),
    "latest_nine": Heading(
        "9 in 10 until", "", "last day with that chance of being picked; blank: none has it"
    ),
    "latest_two": Heading(
        "2 in 10 until", "", "last day with that chance of being picked; blank: none has it"
    ),
    "load_amount": Heading("For one load", "", "how much to sow so that one is ripe at once"),
    "load_kg": Heading("A full load", "kg", "as picked"),
    "sow_as": Heading(
        "Sow it", "", "ripe together for a load, spread over weeks, or in one sowing"
    ),
    "sowings": Heading("Sowings", "", "so that no week gives more than is used in one"),
    "sown": Heading("Sow", "", "date; blank where it is bought or divided"),
    "start": Heading("Sow or plant", "", "date"),
    "start_by": Heading("By", "", "sowing in the open, or planting out"),
    "start_from": Heading(
        "From",
        "",
        "frosts past in nine years of ten; of hardy crops some weeks before",
    ),
    "start_short": Heading("Start", "", "sow, or sow and plant out"),
    "start_when": Heading("When", "", "day to do it"),
    "used_week_kg": Heading("Used in a week", "kg", "the most by the plan, eaten and put up"),
}
