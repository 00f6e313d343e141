"""The tasks of a plan as a calendar (iCalendar, RFC 5545) that any calendar program reads.

Identifiers and stamps come from the plan alone: the same plan gives the same bytes, and a new
plan of the same household moves its tasks instead of doubling them.
"""

import uuid
from collections import Counter
from datetime import UTC, datetime, time, timedelta

from icalendar import Calendar, Event

from model.outlook.own_units import in_own
from model.outlook.task_table import COUNT, CURE, PICK, PUT_AWAY, PUT_UP, SORT, task_table
from model.planning import PlannedSeason
from model.season.weeks import monday_of

_OURS = uuid.uuid5(uuid.NAMESPACE_URL, "urn:harvest-to-pantry-plan:tasks")
_EVERY_WEEK = (PICK, CURE, PUT_AWAY, PUT_UP, SORT, COUNT)
_MAKER = "-//harvest-to-pantry-plan//tasks//EN"


def tasks_calendar(planned: PlannedSeason) -> bytes:
    """Give the bytes of an .ics file with an event for each row of ``task_table``.

    Events are of whole days and leave the day free; the seals of a batch whose process ended at
    a known moment have their clock times, in UTC.

    >>> model.tasks_calendar(planned).splitlines()[0]
    b'BEGIN:VCALENDAR'
    """
    season = planned.case.season
    calendar = Calendar()
    calendar.add("prodid", _MAKER)
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", f"{season.household}: garden and pantry")
    stamp = datetime.combine(planned.case.today, time(), UTC)
    seen: Counter[str] = Counter()
    for row in task_table(planned).to_dict("records"):
        day, task, what = row["day"], row["task"], row["what"]
        # A sowing that moves is the same task; a week's picking is another one than the next's.
        when = monday_of(day) if task in _EVERY_WEEK else day.year
        key = f"{season.household}/{task}/{what}/{when}"
        seen[key] += 1
        event = Event()
        event.add("uid", str(uuid.uuid5(_OURS, f"{key}/{seen[key]}")))
        event.add("dtstamp", stamp)
        how_much = _how_much(row["number"], row["unit"], season.units)
        event.add("summary", _summary(task, what, how_much))
        event.add("dtstart", row["begins_at"] or day)
        event.add("dtend", row["ends_at"] or day + timedelta(days=1))
        event.add("transp", "TRANSPARENT")
        event.add("categories", [task])
        calendar.add_component(event)
    content: bytes = calendar.to_ical()
    return content


def _summary(task: str, what: str, how_much: str) -> str:
    """Say a task in one line, such as "Put up: sauce, 14 jars"."""
    return ", ".join(filter(None, (f"{task.capitalize()}: {what}", how_much)))


def _how_much(number: float | None, unit: str, units: str) -> str:
    """Say a number with its unit, weights as the household weighs; blank where there is none."""
    if number is None:
        return ""
    number, unit = in_own(number, unit, units)
    figure = f"{number:.0f}" if float(number).is_integer() else f"{number:.1f}"
    many = "s" if len(unit) > 2 and unit[-1].isalpha() and figure != "1" else ""
    return f"{figure} {unit}{many}"
