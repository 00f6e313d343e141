"""Every need of a household is shown by a test that exists, or says why it is not met."""

import ast
from collections import Counter

from tests.needs import TESTS, needs, not_shown

ROOT = TESTS.parent
RANKS = {"must": 47, "should": 17, "wow": 4}
MET = ("yes", "partly", "no")


def test_the_table_has_every_need_once_with_its_rank() -> None:
    rows = needs()

    assert [row["need"] for row in rows] == [f"N{number:02}" for number in range(1, 69)]
    assert Counter(row["rank"] for row in rows) == RANKS


def test_every_named_test_exists() -> None:
    for row in needs():
        if row["met"] == "no":
            assert not row["test"], row
            continue
        file, _, name = row["test"].partition("::")
        tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
        functions = {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}
        assert name in functions, row


def test_what_is_not_wholly_met_says_so_with_its_reason() -> None:
    for row in needs():
        assert row["met"] in MET, row
        assert row["where"], row
        assert row["met"] == "yes" or row["reason"], row


def test_a_need_whose_test_did_not_run_is_told() -> None:
    """The whole suite asks this at its end (tests/conftest.py)."""
    every = {row["test"] for row in needs() if row["test"]}
    one = needs()[0]

    assert not_shown(every) == []
    assert not_shown(every - {one["test"]}) == [f"{one['need']}: {one['test']}"]
