"""What the program stands on: each library pinned, with its reason and a licence that fits."""

import re
import tomllib
from importlib.metadata import distribution, metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.version import Version

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
NEEDED = [Requirement(line) for line in PROJECT["dependencies"]]
EXTRAS = [Requirement(line) for own in PROJECT["optional-dependencies"].values() for line in own]
PINNED = dict(
    line.split("==") for line in (ROOT / ".ci" / "constraints.txt").read_text().splitlines()
)
# Licences with which a program under the MIT licence may be passed on together.
FREE = re.compile(r"MIT|BSD|Apache|ISC|PSF|Python Software|MPL|LGPL|HPND|Zlib|Unlicense|0BSD")


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def with_all_they_need(requirements: list[Requirement]) -> set[str]:
    """Name every library that is installed with some."""
    found, waiting = set[str](), [requirement.name for requirement in requirements]
    while waiting:
        name = plain(waiting.pop())
        if name not in found:
            found.add(name)
            further = [Requirement(line) for line in distribution(name).requires or []]
            waiting += [r.name for r in further if not r.marker or r.marker.evaluate({"extra": ""})]
    return found


@pytest.mark.parametrize("needed", [r for r in NEEDED + EXTRAS if r.name != "pulp"], ids=str)
def test_every_library_is_pinned_within_its_range(needed: Requirement) -> None:
    pinned = {plain(name): version for name, version in PINNED.items()}

    assert Version(pinned[plain(needed.name)]) in needed.specifier


@pytest.mark.parametrize("needed", NEEDED + EXTRAS, ids=str)
def test_every_library_has_its_reason(needed: Requirement) -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    first = [line.split("|")[1] for line in text.splitlines() if line.startswith("| ")]

    assert any(needed.name in cell.replace(",", " ").split() for cell in first)


def test_whatever_is_installed_with_the_program_may_be_passed_on_with_it() -> None:
    for name in sorted(with_all_they_need(NEEDED)):
        about = metadata(name)
        said = [
            about.get("License-Expression") or "",
            (about.get("License") or "")[:2000],
            *(line for line in about.get_all("Classifier") or [] if line.startswith("License")),
        ]
        assert any(FREE.search(text) for text in said), (name, said)


def test_what_is_pinned_are_the_libraries_that_the_program_installs() -> None:
    pinned = {plain(name) for name in PINNED}

    assert with_all_they_need(NEEDED) <= pinned
