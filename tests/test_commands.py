"""The planner without a browser: what it prints, and its exit codes."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

import model
from model.__main__ import main
from tests.small_season import TABLES, small_tables, tables_of, write_folder

PEACHES = ["--product", "Peaches, halved or sliced", "--method", "boiling water", "--pack", "hot"]
PESTO = ["--product", "pesto", "--method", "boiling water", "--pack", "hot"]


def process(*words: str) -> list[str]:
    return ["process", *words]


def test_plan_prints_one_json_object(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["plan", str(write_folder(tmp_path)), "--json", "--years", "30"])
    report = json.loads(capsys.readouterr().out)

    assert code == 0
    assert report["today"] == "2027-03-01"
    assert {row["preserve"] for row in report["preserves"]} >= {"whole tomatoes", "frozen beans"}
    assert report["solver"]["status"] in ("optimal", "feasible")


def test_the_same_command_twice_gives_the_same_plan(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = str(write_folder(tmp_path))
    reports = []
    for _ in range(2):
        main(["plan", folder, "--json", "--years", "30", "--seed", "9", "--today", "2027-05-10"])
        report = json.loads(capsys.readouterr().out)
        report.pop("solver")
        reports.append(report)

    assert reports[0] == reports[1]


def test_plan_reads_well_as_text(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(write_folder(tmp_path)), "--years", "30"]) == 0
    text = capsys.readouterr().out

    for part in ("What to plant", "Jars to fill", "How long it lasts", "What limits the plan"):
        assert part in text
    assert "invented" in text


def test_check_says_there_are_no_faults(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(write_folder(tmp_path))]) == 0
    assert "no faults" in capsys.readouterr().out


@pytest.mark.parametrize("name", ["ours.zip", "ours.xlsx"])
def test_what_was_taken_along_is_read_again_as_a_zip_or_a_workbook(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    tables = tables_of(small_tables())
    taken = model.workbook(tables) if name.endswith("xlsx") else model.csv_zip(tables)
    (tmp_path / name).write_bytes(taken)
    outcomes = []
    for place in (tmp_path / name, write_folder(tmp_path)):
        assert main(["plan", str(place), "--json", "--years", "5"]) == 0
        outcomes.append(json.loads(capsys.readouterr().out)["preserves"])

    assert outcomes[0] == outcomes[1]


def test_check_lists_every_fault_on_standard_error(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_folder(tmp_path, beds="bed,area_m2\nonly bed,-3\n", eaters="eater\nAnn\n")
    code = main(["check", str(folder)])
    told = capsys.readouterr()

    assert code == 2
    assert told.out == ""
    assert "beds.csv row 2" in told.err
    assert "eaters.csv row 1" in told.err


def test_check_finds_plantings_that_do_not_fit_their_bed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_folder(tmp_path, beds="bed,area_m2\nonly bed,9\n")

    assert main(["check", str(folder)]) == 2
    assert "need 13.4 m2" in capsys.readouterr().err


def test_a_day_after_the_last_season_is_a_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = main(["plan", str(write_folder(tmp_path)), "--today", "2029-01-01"])

    assert code == 2
    assert "after the last season" in capsys.readouterr().err


def test_process_prints_the_looked_up_figure(capsys: pytest.CaptureFixture[str]) -> None:
    code = main(process(*PEACHES, "--jar", "quart", "--altitude", "762 m", "--json"))
    card = json.loads(capsys.readouterr().out)

    assert code == 0
    assert (card["minutes"], card["band_ft"], card["jar_tested"]) == (30, [1001, 3000], "quart")
    assert card["source"]
    assert card["cautions"]


@pytest.mark.parametrize(
    "words",
    [
        [*PEACHES, "--jar", "quart"],
        [*PEACHES, "--jar", "2 l", "--altitude", "0 m"],
        [*PESTO, "--jar", "pint", "--altitude", "0 m"],
    ],
)
def test_a_refusal_gives_its_reason_and_the_ways_that_remain(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    code = main(process(*words, "--json"))
    refusal = json.loads(capsys.readouterr().out)

    assert code == 3
    assert refusal["refused"] is True
    assert refusal["reason"]
    assert refusal["alternatives"]


def test_an_altitude_without_a_unit_is_a_faulty_command(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(process(*PEACHES, "--jar", "quart", "--altitude", "762")) == 2
    assert "762 m" in capsys.readouterr().err


def test_years_and_days_that_are_none_are_faulty_commands() -> None:
    for words in (
        ["--years", "0"],
        ["--years", "x"],
        ["--years", "\N{SUPERSCRIPT TWO}"],
        ["--seed", "-1"],
        ["--seed", "9" * 5000],
        ["--today", "03/04/2027"],
        ["--today", "0001-01-01"],
        ["--today", "9999-12-31"],
    ):
        with pytest.raises(SystemExit) as stopped:
            main(["plan", "anywhere", *words])
        assert stopped.value.code == 2


def test_a_path_that_cannot_be_one_is_a_faulty_command(capsys: pytest.CaptureFixture[str]) -> None:
    for path in ("x" * 5000, "no\0where", "nowhere"):
        assert main(["check", path]) == 2
        told = capsys.readouterr()
        assert "give a folder or a zip" in told.err
        assert len(told.err) < 300


def test_a_jar_of_next_to_nothing_is_a_fault_of_the_notes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    jars = "jar,volume_ml,owned,lids\nquart,946,40,60\npint,0.0000001,30,40\npack,750,,\n"

    assert main(["check", str(write_folder(tmp_path, jars=jars))]) == 2
    assert "jars.csv row 3: volume_ml is '0.0000001'; give 10 to" in capsys.readouterr().err


def test_a_reader_that_leaves_early_is_told_in_one_line(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "model", "plan", str(write_folder(tmp_path)), "--years", "5"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        told = running.stderr.read().decode()

    assert (running.returncode, told) == (4, "the output was closed before its end\n")


@pytest.mark.parametrize(
    ("today", "side"), [("1999-05-01", "before the first"), ("2029-01-01", "after the last")]
)
def test_a_day_outside_all_seasons_is_said_on_standard_error(
    today: str, side: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["check", str(write_folder(tmp_path)), "--today", today])

    assert f"{today} lies {side} season (2027-01-01 to 2027-12-31)" in capsys.readouterr().err


def test_help_names_the_commands_and_what_the_exit_codes_mean(
    capsys: pytest.CaptureFixture[str],
) -> None:
    for words in (["--help"], ["plan", "--help"]):
        with pytest.raises(SystemExit) as stopped:
            main(words)
        assert stopped.value.code == 0
    told = capsys.readouterr().out

    for part in ("process", "refused jar", "--today", "--seed", "CSV tables"):
        assert part in told


def test_without_a_command_it_explains_itself(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 0
    assert "plan" in capsys.readouterr().out


def test_nothing_but_the_object_is_printed_by_a_fresh_process(tmp_path: Path) -> None:
    """The solver's banner must not stand before the JSON."""
    folder = str(write_folder(tmp_path))
    command = [sys.executable, "-m", "model", "plan", folder, "--json", "--years", "5"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=True)

    assert json.loads(done.stdout)["household"] == "Tiny"
    assert done.stderr == ""


def test_a_glut_is_split_with_every_kilogram_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = str(write_folder(tmp_path))
    day = ["--today", "2027-08-16", "--json"]
    code = main(["glut", folder, *day, "--pile", "tomato=20, bush bean=3", "--hours", "5"])
    told = json.loads(capsys.readouterr().out)

    assert code == 0
    assert sum(step["kg"] for step in told["steps"]) == pytest.approx(23, abs=0.2)
    assert told["limit"]
    bruised = ["--pile", "tomato=20", "--bruised", "tomato=4", "--hours", "5"]
    assert main(["glut", folder, *day, *bruised]) == 0
    told = json.loads(capsys.readouterr().out)
    assert sum(step["bruised_kg"] for step in told["steps"]) == pytest.approx(4, abs=0.1)


def test_a_pile_of_something_unknown_is_a_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = str(write_folder(tmp_path))

    assert main(["glut", folder, "--pile", "unicorn=3", "--hours", "5"]) == 2
    assert "'unicorn' is not grown" in capsys.readouterr().err
    with pytest.raises(SystemExit):
        main(["glut", folder, "--pile", "tomato", "--hours", "5"])


def test_hedges_and_one_more_print_tables(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = str(write_folder(tmp_path, stock=None))
    assert main(["hedges", folder, "--food", "beans", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)[0]["hedge"] == "as planned"
    assert main(["more", folder]) == 0
    capsys.readouterr()
    assert main(["hedges", folder, "--food", "bread"]) == 2
    assert "no food of these notes" in capsys.readouterr().err


def test_the_ways_of_choosing_are_printed_with_their_worth(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = TABLES["plantings.csv"].splitlines()
    free = [f"{rows[0]},least_percent,most_percent", *(f"{row},50,150" for row in rows[1:])]
    folder = str(write_folder(tmp_path, plantings="\n".join(free) + "\n"))

    assert main(["ways", folder, "--years", "40", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert len(told["ways"]) == 8
    assert set(told["value"]) == {"in_sample", "out_of_sample", "gap", "stochastic", "perfect"}
