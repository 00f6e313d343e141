"""Files as they come: damaged, cut off, locked, oddly packed, wrongly named."""

import zipfile
from pathlib import Path

import numpy as np
import pytest

from model.errors import SeasonProblems
from model.intake.csv_text import MOST_BYTES_A_FILE
from model.intake.gate import read_season
from model.season.season import Season
from tests.intake.faulty import demo_tables, season_from_zip, zip_faults, zipped
from tests.small_season import TABLES, small_season, small_tables, write_folder


def season_or_faults(content: bytes) -> Season | SeasonProblems:
    try:
        return season_from_zip(content, "own.zip")
    except SeasonProblems as error:
        return error


def test_flipped_bytes_of_a_zip_give_a_season_or_its_faults_and_nothing_else() -> None:
    whole = zipped(demo_tables("two_rivers"))
    season, chance = season_from_zip(whole, "own.zip"), np.random.default_rng(20270315)
    refused = 0
    for _ in range(400):
        damaged = bytearray(whole)
        for _ in range(chance.integers(1, 4)):
            damaged[chance.integers(len(whole))] ^= int(chance.integers(1, 256))
        answer = season_or_faults(bytes(damaged))
        refused += isinstance(answer, SeasonProblems)
        assert isinstance(answer, SeasonProblems) or answer == season

    assert refused > 300


def test_damage_to_the_list_of_a_zip_gives_a_season_or_its_faults_and_nothing_else() -> None:
    whole = zipped(small_tables())
    begins = whole.index(b"PK\x01\x02")
    season, chance = small_season(), np.random.default_rng(7)
    for _ in range(600):
        damaged = bytearray(whole)
        damaged[chance.integers(begins, len(whole))] = int(chance.integers(256))
        answer = season_or_faults(bytes(damaged))
        assert isinstance(answer, SeasonProblems) or answer == season


def test_a_zip_cut_off_anywhere_is_refused() -> None:
    whole = zipped(small_tables())
    for length in range(0, len(whole), 61):
        (problem,) = zip_faults(whole[:length])
        assert (problem.file, problem.row) == ("own.zip", 0)


def test_a_zip_whose_list_skips_a_file_is_refused_and_not_read_without_it() -> None:
    whole = bytearray(zipped(small_tables()))
    last = whole.rindex(b"PK\x01\x02")
    before = whole.rindex(b"PK\x01\x02", 0, last)
    comment_length = before + 32
    whole[comment_length] = len(whole) - 22 - last

    (problem,) = zip_faults(bytes(whole))
    assert "it is damaged" in problem.found


def test_a_locked_file_of_a_zip_is_told_and_the_others_are_checked() -> None:
    whole = bytearray(zipped(small_tables(beds="bed,area_m2\nonly bed,-3\n")))
    entry = whole.index(b"eaters.csv", whole.index(b"PK\x01\x02")) - 46
    whole[entry + 8] |= 1

    told = {(p.file, p.row) for p in zip_faults(bytes(whole))}
    assert told == {("eaters.csv", 0), ("beds.csv", 2)}


@pytest.mark.parametrize("packing", [zipfile.ZIP_LZMA, zipfile.ZIP_BZIP2])
def test_an_unusual_packing_is_told_with_the_usual_one(packing: int) -> None:
    found = zip_faults(zipped(small_tables(), packing))

    assert {p.file for p in found} == set(small_tables())
    assert all("deflated" in p.wanted for p in found)


def test_a_broken_a_missing_and_a_faulty_file_are_told_together() -> None:
    tables = small_tables(
        beds=None,
        eaters="eater,age_years\n\x00,40\n",
        jars="jar,volume_ml,owned,lids\nquart,946,-4,60\npint,473,30,40\npack,750,,\n",
    )

    told = [(p.file, p.row) for p in zip_faults(zipped(tables))]
    assert told == [("beds.csv", 0), ("eaters.csv", 0), ("jars.csv", 2)]


@pytest.mark.parametrize("name", ["habit.csv", "Habits.csv", "habits.CSV", "habbits.csv"])
def test_a_table_under_a_wrong_name_is_told_with_the_right_one(name: str, tmp_path: Path) -> None:
    text = "habit,from_month_day,factor\neven,01-01,1\n"
    (problem,) = zip_faults(zipped({**small_tables(), name: text}))
    assert (problem.file, problem.wanted) == (name, "did you mean habits.csv?")

    (write_folder(tmp_path) / name).write_text(text, encoding="utf-8")
    with pytest.raises(SeasonProblems, match=r"did you mean habits\.csv"):
        read_season(tmp_path)


def test_what_other_programs_leave_in_a_zip_or_folder_is_passed_over(tmp_path: Path) -> None:
    others = {"__MACOSX/._beds.csv": "x", ".~lock.beds.csv#": "x", "read me.txt": "x"}
    assert season_from_zip(zipped({**small_tables(), **others}), "own.zip") == small_season()

    folder = write_folder(tmp_path)
    (folder / "._beds.csv").write_text("x", encoding="utf-8")
    (folder / "settings.csv").mkdir()
    assert read_season(folder) == small_season()


def test_a_wild_file_name_is_shown_plain_and_short() -> None:
    (problem,) = zip_faults(zipped({**small_tables(), f"\x1b[2J{'x' * 300}.csv": "x"}))

    assert "\x1b" not in problem.file
    assert len(problem.file) < 90


def test_an_upload_that_is_too_large_is_not_opened() -> None:
    assert "too large" in zip_faults(zipped(small_tables()) + b" " * 10_000_001)[0].found


def test_an_empty_folder_and_a_missing_one_say_so(tmp_path: Path) -> None:
    with pytest.raises(SeasonProblems, match=r"beds\.csv: the file is missing"):
        read_season(tmp_path)
    with pytest.raises(SeasonProblems, match="no such folder"):
        read_season(tmp_path / "nowhere")


def test_something_that_is_no_zip_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "notes.zip"
    file.write_bytes(b"PK\x03\x04 not really")

    with pytest.raises(SeasonProblems, match="not a zip"):
        read_season(file)


def test_a_zip_bomb_is_stopped_before_it_unfolds() -> None:
    bomb = zipped(dict.fromkeys(TABLES, " " * (MOST_BYTES_A_FILE * 3)))
    assert len(bomb) < 200_000

    with pytest.raises(SeasonProblems, match="unfolds to too much"):
        season_from_zip(bomb, "bomb.zip")
    one = zipped({"beds.csv": " " * (MOST_BYTES_A_FILE * 3)})
    with pytest.raises(SeasonProblems, match="too large"):
        season_from_zip(one, "bomb.zip")


def test_a_path_in_a_zip_is_never_used_as_a_path() -> None:
    tables = {f"../../etc/{name}": text for name, text in small_tables().items()}

    assert season_from_zip(zipped(tables), "sly.zip") == small_season()


def test_a_zip_with_a_table_twice_is_refused() -> None:
    tables = {**small_tables(), "copy/beds.csv": "bed,area_m2\nother,3\n"}

    with pytest.raises(SeasonProblems, match="holds it twice"):
        season_from_zip(zipped(tables), "twice.zip")
