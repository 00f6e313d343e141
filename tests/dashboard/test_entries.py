"""Entries told in words: no file names, no bare numbers, days as the household writes them."""

from dashboard.entries import WORDS, changed_cells, entry_told, in_sheets
from model.intake.folder import TABLE_KINDS


def test_every_table_of_the_notes_has_a_name_for_the_page() -> None:
    names = {kind.file: in_sheets(kind.file) for kind in TABLE_KINDS}

    assert set(WORDS) == set(names)
    assert len(set(names.values())) == len(names)


def test_an_entry_is_told_with_its_units_and_what_bare_numbers_count() -> None:
    cells = {"batch": "T1", "put_up_on": "2027-08-16", "filled": "7", "used_kg": "9", "note": ""}

    assert entry_told(cells) == "T1 · 16 Aug 2027 · filled 7 · 9 kg"


def test_a_moment_is_told_by_the_clock_and_the_day_it_had_there() -> None:
    assert entry_told({"batch": "T1", "finished_at": "2027-08-16T19:40+01:00"}) == (
        "T1 · 19:40 on 16 Aug"
    )


def test_of_a_changed_entry_only_what_changed_is_told() -> None:
    before = {"crop": "pea", "picked_kg": "2", "note": "wet"}

    assert changed_cells(before, {"crop": "pea", "picked_kg": "3"}) == {
        "picked_kg": "3",
        "note": "no note",
    }
