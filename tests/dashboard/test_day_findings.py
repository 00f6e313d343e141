"""What the preserving day says of its hours."""

from collections.abc import Callable
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from dashboard.day_findings import look_words

LONDON = ZoneInfo("Europe/London")


@pytest.mark.parametrize(
    ("ended", "words"),
    [
        # 12 to 24 hours later (USDA AIB 410 and 539), but nobody gets up at night for it
        ("2027-08-16 12:00", "tomorrow morning, before 12:00"),
        ("2027-08-16 10:05", "tomorrow morning, before 10:05"),
        ("2027-08-16 17:59", "tomorrow morning, before 17:59"),
        ("2027-08-16 09:30", "from 21:30, before 09:30 tomorrow"),
        ("2027-08-16 20:10", "from 08:10 tomorrow, before 20:10 tomorrow"),
        ("2027-08-17 00:30", "from 12:30 tomorrow, before 00:30 in 2 days"),
        # the clocks go back on 31 October 2027 and forward on 28 March
        ("2027-10-30 12:00", "tomorrow morning, before 11:00"),
        ("2027-10-30 19:40", "from 06:40 tomorrow, before 18:40 tomorrow"),
        ("2027-03-27 12:00", "tomorrow morning, before 13:00"),
        ("2027-03-27 19:40", "from 08:40 tomorrow, before 20:40 tomorrow"),
    ],
)
@pytest.mark.parametrize("zone", [LONDON, None])
def test_seals_are_looked_at_when_people_are_up_and_before_the_hours_end(
    machine_in: Callable[[str], None], ended: str, words: str, zone: ZoneInfo | None
) -> None:
    machine_in("Europe/London")
    moment = datetime.fromisoformat(ended)
    begins = moment.replace(hour=9, minute=0)
    if moment.hour == 0:
        begins = begins.replace(day=moment.day - 1)

    assert look_words(moment, begins, zone) == words
