"""The README says what is true: its commands, its pictures, its table of columns."""

import re
import shlex
from pathlib import Path

import pytest

from model.__main__ import main
from model.intake.columns import TableKind
from model.intake.folder import TABLE_KINDS
from model.intake.units import UNITS

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = [line.strip() for line in README.splitlines() if line.startswith("    ")]


def described(kind: TableKind) -> str:
    """Give a table's row of the README."""
    headings = []
    for column in kind.columns:
        units = UNITS[column.measure] if column.measure else ()
        names = [f"{column.heading}_{unit}" for unit in units] or [column.heading]
        words = " or ".join(f"`{name}`" for name in names)
        headings.append(words if column.required else f"({words})")
    file = f"`{kind.file}`" if kind.required else f"(`{kind.file}`)"
    return f"| {file} | {kind.row_is} | {', '.join(headings)} |"


@pytest.mark.parametrize("kind", TABLE_KINDS, ids=lambda kind: kind.file)
def test_the_readme_describes_every_table(kind: TableKind) -> None:
    assert described(kind) in README.splitlines()


def test_the_two_commands_do_all_the_set_up() -> None:
    set_up = [line for line in COMMANDS if line.startswith("python3 -m venv")]

    assert [line.rsplit(" ", 1)[1] for line in set_up] == ["dashboard", "pytest"]
    assert all("\n" not in line and "&&" in line for line in set_up)


@pytest.mark.parametrize("line", [line for line in COMMANDS if "-m model" in line])
def test_a_command_of_the_readme_runs(
    line: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    code = main(shlex.split(line)[3:])

    assert code == 0
    assert capsys.readouterr().out


@pytest.mark.parametrize("file", ["README.md", "DEVELOPERS.md"])
def test_every_link_and_picture_is_there(file: str) -> None:
    text = (ROOT / file).read_text(encoding="utf-8")
    for link in re.findall(r"\]\(([^)#]+)\)", text):
        assert link.startswith("https://") or (ROOT / link).exists(), link


def test_the_check_runs_the_readme_s_own_lines() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")

    assert 'bash -c "$test_line"' in script
    assert 'bash -c "$open_line"' in script
