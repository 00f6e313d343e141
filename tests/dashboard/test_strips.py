"""Strips of room, jars and months, and the finding above them."""

from datetime import date

import pandas as pd

from dashboard.strips import JARS, ROOM, limit_strips, month_strips, months_finding, room_finding

WEEKS = [date(2027, 8, 30), date(2027, 9, 6)]


def limits(kind: str, **shares: tuple[float, float]) -> pd.DataFrame:
    return pd.DataFrame(
        [
            {"limit": name, "kind": kind, "week": week, "share": share}
            for name, own in shares.items()
            for week, share in zip(WEEKS, own, strict=True)
        ]
    )


def test_the_fullest_place_stands_first_with_its_peak_week() -> None:
    room = limits("shelf", attic=(0.2, 0.4), cellar=(0.9, 0.5))
    strips = limit_strips(room, ROOM)

    assert list(dict.fromkeys(strips["name"])) == ["cellar", "attic"]
    assert strips["label"].iloc[0] == "90% on 30 Aug 2027"
    finding = room_finding(room, ROOM, "place")
    assert finding == "No place is filled up; fullest: cellar, 90% on 30 Aug 2027"


def test_jars_that_run_out_are_named_with_the_week_from_which() -> None:
    jars = limits("jars", **{"jars: pint": (0.5, 1.0), "jars: quart": (0.1, 0.2)})

    found = room_finding(jars, JARS, "size of jar")
    assert found == "Filled up, and from when: pint (6 Sep 2027)"
    assert set(limit_strips(jars, JARS)["full"]) == {"yes", "no"}
    assert limit_strips(jars, ROOM).empty
    assert room_finding(jars, ROOM, "place") == ""


def test_the_hardest_month_is_the_one_in_which_most_foods_likely_run_short() -> None:
    short = pd.DataFrame(
        [
            {"food": "peas", "month": date(2028, 4, 1), "chance_short": 0.7},
            {"food": "peas", "month": date(2028, 5, 1), "chance_short": 0.9},
            {"food": "roots", "month": date(2028, 5, 1), "chance_short": 0.6},
        ]
    )

    found = months_finding(short)
    assert found == "Hardest month: May 2028, when 2 of 2 foods likely run short"
    assert month_strips(short)["ends"].iloc[0] == pd.Timestamp("2028-05-01")
    never = short.assign(chance_short=0.1)
    assert months_finding(never).startswith("In no month")
