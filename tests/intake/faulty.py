"""What the tests of the gate share: the faults of a changed season, zips, the demo's texts."""

import io
import zipfile
from pathlib import Path

import pytest

from model.errors import Problem, SeasonProblems
from model.intake.folder import text_tables, zip_files
from model.intake.gate import season_from_tables
from model.season.season import Season
from tests.small_season import small_season

DEMO = Path(__file__).parents[2] / "demo_data"
HOUSEHOLDS = ("alder_lane", "two_rivers")


def faults(**changes: str | None) -> tuple[Problem, ...]:
    """Give the faults of the tiny season with some of its files changed."""
    with pytest.raises(SeasonProblems) as caught:
        small_season(**changes)
    return caught.value.problems


def season_from_zip(content: bytes, name: str) -> Season:
    """Read a zip by its bytes."""
    return season_from_tables(text_tables(zip_files(content, name)))


def zip_faults(content: bytes) -> tuple[Problem, ...]:
    """Give the faults of a zip."""
    with pytest.raises(SeasonProblems) as caught:
        season_from_zip(content, "own.zip")
    return caught.value.problems


def zipped(tables: dict[str, str], packing: int = zipfile.ZIP_DEFLATED) -> bytes:
    """Give a zip of tables."""
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w", packing) as archive:
        for name, text in tables.items():
            archive.writestr(name, text)
    return content.getvalue()


def demo_tables(household: str) -> dict[str, str]:
    """Give the texts of an invented household by file name."""
    files = sorted((DEMO / household).glob("*.csv"))
    return {file.name: file.read_text(encoding="utf-8") for file in files}
