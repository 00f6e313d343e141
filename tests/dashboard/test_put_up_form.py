"""The moment at which a process ended, as it is written down."""

from collections.abc import Callable
from datetime import date, time
from zoneinfo import ZoneInfo

import pytest

from dashboard.forms.put_up_form import moment_text

LONDON = ZoneInfo("Europe/London")


@pytest.mark.parametrize(
    ("day", "moment"),
    [
        # the evenings before and after the clocks go back on 31 October 2027 and forward on
        # 28 March: the offset is that of the evening, whenever it is written down
        (date(2027, 10, 30), "2027-10-30T19:40+01:00"),
        (date(2027, 10, 31), "2027-10-31T19:40+00:00"),
        (date(2027, 3, 27), "2027-03-27T19:40+00:00"),
        (date(2027, 3, 28), "2027-03-28T19:40+01:00"),
    ],
)
@pytest.mark.parametrize("zone", [LONDON, None])
def test_a_clock_time_is_written_with_the_offset_of_its_own_day(
    machine_in: Callable[[str], None], day: date, moment: str, zone: ZoneInfo | None
) -> None:
    machine_in("Europe/London")

    assert moment_text(day, time(19, 40), zone) == moment
