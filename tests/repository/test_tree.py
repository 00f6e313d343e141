"""The shape of the house: what stands at the top, how long a file is, how it is named."""

import re
import subprocess
from pathlib import Path

import model

ROOT = Path(__file__).parents[2]
TOP = {"pyproject.toml", "README.md", "DEVELOPERS.md", "LICENSE"} | {
    "dashboard",
    "model",
    "tests",
    "demo_data",
}
MOST_LINES = 300
VAGUE = re.compile(r"(^|/)(utils?|helpers?|common|misc|manager)(\.py|/)")


def tracked() -> list[str]:
    """Give the files of the project, whether it is a checkout or an unpacked copy."""
    done = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode == 0:
        return done.stdout.split()
    return [
        str(path.relative_to(ROOT))
        for top in TOP
        for path in ((ROOT / top).rglob("*") if (ROOT / top).is_dir() else [ROOT / top])
        if path.is_file() and "__pycache__" not in path.parts
    ]


def test_nothing_stands_at_the_top_that_does_not_belong_there() -> None:
    found = {name.split("/")[0] for name in tracked()}

    assert {name for name in found if not name.startswith(".")} == TOP


def test_no_file_is_longer_than_300_lines() -> None:
    long = {
        name: lines
        for name in tracked()
        if name.endswith(".py") and (lines := len((ROOT / name).read_text().splitlines())) > 300
    }

    assert long == {}


def test_no_file_has_a_name_that_explains_nothing() -> None:
    assert [name for name in tracked() if VAGUE.search(name)] == []


def test_only_package_marks_are_empty() -> None:
    empty = [name for name in tracked() if not (ROOT / name).stat().st_size]

    assert [name for name in empty if not name.endswith("__init__.py")] == []


def test_the_public_names_are_sorted_and_there() -> None:
    assert model.__all__ == sorted(model.__all__, key=lambda name: (not name.isupper(), name))
    assert all(hasattr(model, name) for name in model.__all__)
