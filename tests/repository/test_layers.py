"""Imports run one way, as the table in DEVELOPERS.md says."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ROW = re.compile(r"^\| `model\.(\w+)` \|(.*)\|$", re.MULTILINE)
FILES = sorted((ROOT / "model").rglob("*.py"))
PAGES = sorted((ROOT / "dashboard").rglob("*.py"))


def allowed() -> dict[str, set[str]]:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return {part: set(re.findall(r"`(\w+)`", names)) for part, names in ROW.findall(text)}


def imports(file: Path) -> Iterator[tuple[str, bool]]:
    """Give each imported module, and whether the import stands at the top of the file."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            yield node.module or "", node in tree.body
            for name in node.names if node.module == "model" else ():
                if any((ROOT / "model").glob(f"{name.name}*")):
                    yield f"model.{name.name}", node in tree.body
        elif isinstance(node, ast.Import):
            for name in node.names:
                yield name.name, node in tree.body


def part_of(file: Path) -> str:
    return file.relative_to(ROOT / "model").with_suffix("").parts[0]


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(ROOT)))
def test_the_model_imports_only_what_the_table_allows(file: Path) -> None:
    part = part_of(file)
    if part in ("__init__", "__main__"):
        return
    for module, _ in imports(file):
        names = module.split(".")
        if names[0] == "model" and len(names) > 1 and names[1] != part:
            assert names[1] in allowed()[part], f"{part} imports {module}"


def test_the_table_names_every_part_of_the_model_and_no_other() -> None:
    parts = {part_of(file) for file in FILES} - {"__init__", "__main__"}

    assert set(allowed()) == parts


@pytest.mark.parametrize("file", [*FILES, *PAGES], ids=lambda file: str(file.relative_to(ROOT)))
def test_imports_stand_at_the_top(file: Path) -> None:
    assert all(at_top for _, at_top in imports(file))


def users_of(package: str, files: list[Path]) -> set[str]:
    return {
        str(file.relative_to(ROOT))
        for file in files
        if any(module.split(".")[0] == package for module, _ in imports(file))
    }


def test_the_solver_has_one_door() -> None:
    assert users_of("highspy", FILES) == {"model/optimization/solve.py"}


def test_numbers_enter_the_season_by_one_door_and_tables_leave_by_the_outlook() -> None:
    numeric = users_of("numpy", [file for file in FILES if part_of(file) == "season"])
    tables = {Path(name).parts[1] for name in users_of("pandas", FILES)}

    assert numeric == {"model/season/arrays.py"}
    assert tables <= {"outlook", "questions", "__main__.py"}


def test_the_model_knows_no_dashboard() -> None:
    for package in ("dashboard", "streamlit", "altair", "demo_data"):
        assert users_of(package, FILES) == set()


def test_the_dashboard_uses_only_the_model_s_public_names() -> None:
    for file in PAGES:
        assert all(not module.startswith("model.") for module, _ in imports(file)), file


def test_charts_know_no_streamlit_and_views_no_other_view() -> None:
    charts = [file for file in PAGES if file.parent.name == "charts"]
    views = [file for file in PAGES if file.parent.name == "views"]

    assert users_of("streamlit", charts) == set()
    for file in views:
        assert all(not module.startswith("dashboard.views") for module, _ in imports(file))


def test_one_file_touches_the_session() -> None:
    touching = [file.name for file in PAGES if "st.session_state" in file.read_text("utf-8")]

    assert touching == ["session.py"]
