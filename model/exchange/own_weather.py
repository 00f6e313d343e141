"""A household's tables with a daily weather file taken in: its days, and own frost odds."""

from collections.abc import Sequence
from dataclasses import dataclass

from model.errors import SeasonProblems
from model.forecast.own_climate import FrostOdds, OwnWarmth, frost_odds, own_warmth
from model.intake.columns import MOST_ENTRIES
from model.intake.desk import Desk
from model.intake.home_columns import FROSTS
from model.intake.plot import weather
from model.intake.tables import SeasonTables, TextTable
from model.intake.units import outside
from model.intake.weather_file import WeatherFile, read_weather
from model.season.frosts import Frosts
from model.season.garden import Temperatures
from model.season.weeks import YearDay

WEATHER, FROST_DATES = "weather.csv", "frosts.csv"
_HEADINGS = ("day", "high_c", "low_c", "note")
_FROST_HEADINGS = ("frost", "early_month_day", "median_month_day", "late_month_day", "note")


@dataclass(frozen=True, slots=True)
class OwnWeather:
    """The new tables and what came of the file.

    ``added`` days are new; ``kept`` days stood in the notes already and stay as they were;
    ``too_old`` days are more than the notes may hold; ``flagged`` and ``one_sided`` readings
    and days of the file are not used. ``warmth`` is None without frost odds.

    Counts are of days or readings.

    >>> own = model.with_weather(notes, b"date,min_c,max_c\\n2020-05-01,3,17\\n", "garden.csv")
    >>> own.added, own.kept, own.odds.why_not
    (1, 0, '0 years have enough days in spring, 5 are needed')
    """

    tables: SeasonTables
    station: str
    added: int
    kept: int
    too_old: int
    flagged: int
    one_sided: int
    odds: FrostOdds
    warmth: OwnWarmth | None


def with_weather(tables: SeasonTables, content: bytes, name: str) -> OwnWeather:
    """Give the tables with the days of a weather file, and frost dates by their own odds.

    Days that stand in the notes stay as they are. The frost dates stay too where the records
    cannot say (``odds.why_not``).

    Raises
    ------
    SeasonProblems : when the file or the weather in the tables is at fault; ``name`` is the
        file's in messages. Faults of other tables stay in the tables.

    >>> model.with_weather(notes, b"rain", "garden.csv")
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - garden.csv: the form of this weather file is not known; give GHCN-Daily CSV (STATION, DATE,
      TMAX, TMIN), or columns date, min_c, max_c
    """
    own_faults = [problem for problem in tables.problems if problem.file == WEATHER]
    if own_faults:
        raise SeasonProblems(own_faults)
    file = read_weather(content, name)
    old = tables.tables.get(WEATHER) or TextTable(_HEADINGS, ())
    known = {record.day for record in _records(old)}
    new = [record for record in file.days if record.day not in known]
    room = max(0, MOST_ENTRIES - len(old.rows))
    fitting = new[max(0, len(new) - room) :]
    merged = _with_days(old, fitting, file)
    days = _records(merged)
    odds = frost_odds(days)
    changed = {**tables.tables, WEATHER: merged}
    problems = tables.problems
    if odds.frosts is not None:
        changed[FROST_DATES] = _frost_dates(odds.frosts, odds, file)
        problems = tuple(problem for problem in problems if problem.file != FROST_DATES)
    return OwnWeather(
        tables=SeasonTables(changed, problems),
        station=file.station,
        added=len(fitting),
        kept=len(file.days) - len(new),
        too_old=len(new) - len(fitting),
        flagged=file.flagged,
        one_sided=file.one_sided,
        odds=odds,
        warmth=own_warmth(days, odds.frosts) if odds.frosts else None,
    )


def _records(table: TextTable) -> tuple[Temperatures, ...]:
    """Read the weather as the gate does; raises SeasonProblems."""
    desk = Desk(SeasonTables({WEATHER: table}, ()))
    records = weather(desk)
    if desk.problems:
        raise SeasonProblems(desk.problems)
    return records


def _with_days(old: TextTable, days: Sequence[Temperatures], file: WeatherFile) -> TextTable:
    """Write days below those of a table, under its headings and in their units."""
    number = max((row for row, _ in old.rows), default=1)
    unit_of = {side: "c" if f"{side}_c" in old.headings else "f" for side in ("high", "low")}
    rows = []
    for place, record in enumerate(days, start=1):
        cells = {"day": record.day.isoformat(), "note": file.station}
        for side, celsius in (("high", record.high_c), ("low", record.low_c)):
            degrees = outside("temperature", unit_of[side], celsius)
            cells[f"{side}_{unit_of[side]}"] = f"{round(degrees, 2):g}"
        rows.append((number + place, tuple(cells.get(heading, "") for heading in old.headings)))
    return TextTable(old.headings, (*old.rows, *rows))


def _frost_dates(frosts: Frosts, odds: FrostOdds, file: WeatherFile) -> TextTable:
    rows = []
    both = zip(
        FROSTS,
        (frosts.last_spring, frosts.first_autumn),
        (odds.spring_years, odds.autumn_years),
        strict=True,
    )
    for number, (name, frost, years) in enumerate(both, start=2):
        note = f"own odds over {years} years {file.station}".strip()
        dates = map(_month_day, (frost.early, frost.median, frost.late))
        rows.append((number, (name, *dates, note)))
    return TextTable(_FROST_HEADINGS, tuple(rows))


def _month_day(day: YearDay) -> str:
    return f"{day.month:02d}-{day.day:02d}"
