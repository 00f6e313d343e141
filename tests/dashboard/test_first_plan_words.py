"""What Spring says of a first plan that is small."""

import pandas as pd

from dashboard.findings import spring_headline
from dashboard.lasting import GONE, PAST


def test_where_no_food_reaches_the_new_crop_that_is_said_before_the_reasons() -> None:
    foods = pd.DataFrame(
        [("peas", "no", GONE, 3.0, 9.0), ("potatoes", "no", PAST, 9.0, 9.0)],
        columns=["food", "enough", "standing", "met_portions", "wanted_portions"],
    )
    shelf = pd.DataFrame([("jar", 12.0, 12.0)], columns=["unit", "planned", "mean"])
    limits = pd.DataFrame(columns=["limit", "share", "week"])

    assert spring_headline(shelf, foods, limits, "9 crops").endswith(
        "With that none of the 2 foods reaches the new crop. Past their keeping before it: "
        "potatoes. Short even after an ordinary harvest: peas."
    )
