"""Every public function and class brings an example in its docstring, and the example runs."""

import doctest
from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from types import ModuleType

import pytest

import model
from tests.conftest import DEMOS
from tests.intake.test_first_notes import NORTH

FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
BEGUN = datetime(2027, 3, 1, tzinfo=UTC)
FOLDER = DEMOS / "alder_lane"


def public(names: ModuleType, called: str) -> dict[str, object]:
    """Give what a namespace offers by the name it is asked for; constants need no example."""
    found = {name: getattr(names, name) for name in getattr(names, "__all__", vars(names))}
    return {
        called + name: it
        for name, it in found.items()
        if callable(it) and it.__module__.startswith("model.")
    }


PUBLIC = {
    **public(model.household, "household."),
    **public(model.workings, "workings."),
    **public(model, ""),
}


@pytest.fixture(scope="session")
def shown(
    alder_lane: model.Season,
    spring_plan: model.PlannedSeason,
    tiny_plan: model.PlannedSeason,
    tmp_path_factory: pytest.TempPathFactory,
) -> dict[str, object]:
    """Give the names that examples use, as the docstring of ``model`` tells them."""
    notes = model.read_tables(FOLDER)
    store = model.Store(tmp_path_factory.mktemp("kept") / "kept.sqlite", BEGUN)
    store.begin("Alder Lane", notes, model.Author("begun", BEGUN, "Ann", "the first notes"))
    return {
        "model": model,
        "folder": FOLDER,
        "notes": notes,
        "season": alder_lane,
        "planned": spring_plan,
        "small": tiny_plan,
        "answers": NORTH,
        "store": store,
        "date": date,
        "datetime": datetime,
        "UTC": UTC,
        "Path": Path,
    }


@pytest.mark.parametrize("name", PUBLIC)
def test_the_example_of_a_public_name_comes_to_what_it_says(
    name: str, shown: Mapping[str, object], tmp_path: Path
) -> None:
    found = doctest.DocTestFinder(recurse=False).find(
        PUBLIC[name], name, globs={**shown, "place": tmp_path}
    )
    wrong: list[str] = []
    for example in found:
        doctest.DocTestRunner(optionflags=FLAGS).run(example, out=wrong.append)

    assert [e.source for test in found for e in test.examples if e.want], "no example"
    assert "".join(wrong) == ""


def test_the_docstring_of_the_model_tells_the_names_that_examples_use(
    shown: Mapping[str, object],
) -> None:
    told = {name for name in (*shown, "place") if f"``{name}``" in (model.__doc__ or "")}

    assert told == {*shown, "place"} - {"model", "date", "datetime", "UTC", "Path"}
