"""What DEVELOPERS.md says of adding a crop, a preserve, a constraint, a chart and a rule is so.

Its examples are read from it and done to a copy of the program, which a process of its own runs.
"""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
BLOCK = re.compile(r"^```(\w+) (\S+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
MOST_PLACES = 2
BEGIN = """
from datetime import date
from fractions import Fraction
import model
from tests.small_season import TABLES, small_season
MARCH = date(2027, 3, 1)
"""


def blocks() -> list[tuple[str, str, str]]:
    """Give the kind, the file and the text of each block."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return [found.groups() for found in BLOCK.finditer(text)]


def changed(text: str, diff: str) -> str:
    """Put the lines that begin with + in the place of the lines before them that begin with -."""
    for before, after in re.findall(r"((?:^-.*\n)+)((?:^\+.*\n)+)", diff, re.MULTILINE):
        old, new = ("".join(line[1:] for line in part.splitlines(True)) for part in (before, after))
        old, new = old.rstrip("\n"), new.rstrip("\n")
        assert text.count(old) == 1, f"not found once: {old}"
        text = text.replace(old, new)
    return text


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a copy of the program to which all examples are added."""
    copied = tmp_path_factory.mktemp("copy")
    for package in ("model", "dashboard", "demo_data", "tests"):
        shutil.copytree(ROOT / package, copied / package, ignore=shutil.ignore_patterns("*.pyc"))
    for kind, name, text in blocks():
        file = copied / name
        there = file.read_text(encoding="utf-8") if file.exists() else ""
        whole = changed(there, text) if kind == "diff" else there + text
        file.write_text(whole, encoding="utf-8")
    return copied


def run(copy: Path, script: str) -> list[str]:
    """Run a script with the copy in the place of the program; gives the lines it prints."""
    done = subprocess.run(
        [sys.executable, "-c", BEGIN + script],
        cwd=copy,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout.split("\n")


def test_the_copy_is_what_runs(copy: Path) -> None:
    assert run(copy, "print(model.__file__)")[0].startswith(str(copy))


def test_each_takes_one_or_two_places() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    part = text.split("## An example of each")[1].split("\n## ")[0]
    named = re.split(r"^(A [\w ]+):", part, flags=re.MULTILINE)[1:]
    places = {
        what: len({file for _, file, _ in BLOCK.findall(body)})
        for what, body in zip(named[::2], named[1::2], strict=True)
    }

    assert list(places) == [
        "A crop",
        "A preserve of a new product",
        "A constraint",
        "A chart",
        "A rule of the gate",
    ]
    assert all(1 <= number <= MOST_PLACES for number in places.values()), places


def test_an_added_crop_is_planted_and_picked(copy: Path) -> None:
    printed = run(
        copy,
        """
heading, beans, tomato = TABLES["plantings.csv"].splitlines()
plantings = f"{heading}\\n{beans}\\n{tomato}\\n2027,bed swede,only bed,2027-05-01,,2,\\n"
foods = TABLES["foods.csv"] + "swedes,vegetable,2,4,3,bed swede\\n"
season = small_season(plantings=plantings, foods=foods)
made = model.plan_season(season, MARCH, years=5)
kg = made.plan.harvest_kg[made.case.arrays.crops.index("bed swede")].sum()
print(round(float(kg)))
""",
    )
    # 2 m2 of 9.532 kg, less the one year in twenty of a near-total loss
    assert 17 <= int(printed[0]) <= 19


def test_an_added_product_is_put_up_by_its_tested_process_and_by_no_other(copy: Path) -> None:
    printed = run(
        copy,
        """
product = "Apples, sliced another way"
known = model.process_time(product, "boiling water", "hot", "pint", Fraction(2100))
print(known.minutes)
for pack, altitude in (("raw", 2100), ("hot", 4000)):
    try:
        model.process_time(product, "boiling water", pack, "pint", Fraction(altitude))
        print("given")
    except model.NoTestedProcess:
        print("refused")
""",
    )

    assert printed[:3] == ["25", "refused", "refused"]


def test_an_added_constraint_is_kept_by_the_plan(copy: Path) -> None:
    script = """
hours = "begins,ends,hours_a_week\\n,,20\\n"
made = model.plan_season(small_season(kitchen_hours=hours), MARCH, years=5)
print(int(made.plan.loads.sum(axis=0).max()), int(made.plan.to_fill.sum()))
"""
    most, jars = run(copy, script)[0].split()

    assert (most, int(jars) > 0) == ("1", True)
    assert int(run(ROOT, script)[0].split()[0]) > 1


def test_an_added_chart_stands_on_its_page(copy: Path, tmp_path: Path) -> None:
    printed = run(
        copy,
        f"""
import json, os
from pathlib import Path
from streamlit.testing.v1 import AppTest
from tests.dashboard.seeding import FIRST, begin
from tests.small_season import tables_of
path = Path({str(tmp_path / "households.sqlite")!r})
os.environ["HARVEST_TO_PANTRY_STORE"] = str(path)
begin(model.Store(path, FIRST), "Tiny", tables_of(TABLES))
app = AppTest.from_file({str(copy / "dashboard" / "app.py")!r}, default_timeout=60).run()
app.date_input[0].set_value(MARCH).run()
assert not app.exception
for chart in app.get("vega_lite_chart"):
    print(json.loads(chart.proto.spec)["description"])
""",
    )

    assert any("loads in the season" in line for line in printed)


def test_an_added_rule_of_the_gate_is_told_with_its_row(copy: Path) -> None:
    printed = run(
        copy,
        """
try:
    small_season(beds="bed,area_m2\\nonly bed,10001\\n")
except model.SeasonProblems as problems:
    print(problems)
small_season(beds="bed,area_m2\\nonly bed,10000\\n")
""",
    )

    assert "beds.csv" in " ".join(printed)
    assert "a bed of more than a hectare" in " ".join(printed)
