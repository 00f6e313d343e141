"""A folder, a zip or an upload of CSV files, read within bounds.

Uploads are hostile: file names are never used as paths, and size, rows and the bytes
that a zip unfolds to are bounded before anything is parsed.
"""

import io
import struct
import zipfile
import zlib
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from pathlib import Path, PurePosixPath

from model.errors import Problem, SeasonProblems
from model.intake.csv_text import MOST_BYTES_A_FILE, text_table
from model.intake.home_columns import HOME_TABLES
from model.intake.kitchen_columns import KITCHEN_TABLES
from model.intake.record_columns import RECORD_TABLES
from model.intake.rows import usual_heading
from model.intake.tables import SeasonTables, TextTable

TABLE_KINDS = HOME_TABLES + KITCHEN_TABLES + RECORD_TABLES
MOST_BYTES = 10_000_000
MOST_FILES = 60
MOST_SHOWN = 80

# A file by its name, with its bytes or with the fault that keeps it from being read.
File = tuple[str, bytes | Problem]
# A table by the name of its file, or the faults that keep it from being one.
Sheet = tuple[str, TextTable | SeasonProblems]

_KINDS = {kind.file: kind for kind in TABLE_KINDS}
# What zipfile and the unpackers beneath it raise for bytes that are damaged, cut off or
# encrypted; NotImplementedError is a RuntimeError, UnicodeDecodeError a ValueError.
_DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    OSError,
    RuntimeError,
    ValueError,
)
# The ways that every program packs a zip; other unpackers take memory without bound.
PACKED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
# In the last record of a zip that keeps its count in a larger one.
_COUNTED_ELSEWHERE = 0xFFFF
_WANTED = "give a folder or a zip of the season's CSV files"


def table_headings(file: str) -> dict[str, str]:
    """Give the headings that a table usually has, in the unit used inside, and what they mean.

    Raises KeyError for a file that is no table of the notes.

    >>> model.table_headings("beds.csv")
    {'bed': 'name', 'area_m2': 'its size'}
    """
    return {usual_heading(column): column.meaning for column in _KINDS[file].columns}


def read_tables(path: str | Path) -> SeasonTables:
    """Read every known table of a folder or a zip.

    Raises
    ------
    SeasonProblems : when there is no such folder or zip, or it cannot be opened. The faults
        of single files are in the tables that are given back.

    >>> model.read_tables(folder).tables["beds.csv"].headings
    ('bed', 'area_m2', 'note')
    >>> model.read_tables(folder / "nowhere")
    Traceback (most recent call last):
        ...
    model.errors.SeasonProblems: 1 problem in the season:
      - nowhere: there is no such folder or zip; give a folder or a zip of the season's CSV files
    """
    place = Path(path)
    name = shown_name(place.name)
    try:
        if place.is_dir():
            return text_tables(_folder_files(place))
        if place.is_file():
            with place.open("rb") as stream:
                return text_tables(zip_files(stream.read(MOST_BYTES + 1), name))
    except OSError as error:
        found = f"it cannot be opened ({error.strerror or error})"
        raise SeasonProblems([Problem(name, 0, found, _WANTED)]) from error
    raise SeasonProblems([Problem(name, 0, "there is no such folder or zip", _WANTED)])


def shown_name(name: str) -> str:
    """Give a file's name as it may stand in a message."""
    plain = "".join(letter if letter.isprintable() else "?" for letter in name)
    return plain if len(plain) <= MOST_SHOWN else f"{plain[:MOST_SHOWN]}..."


def _folder_files(folder: Path) -> Iterator[File]:
    for file in sorted(folder.iterdir()):
        if not _is_table(file.name) or not file.is_file():
            continue
        if file.name not in _KINDS:
            yield shown_name(file.name), unknown_table(file.name)
            continue
        try:
            with file.open("rb") as stream:
                yield file.name, stream.read(MOST_BYTES_A_FILE + 1)
        except OSError as error:
            found = f"it cannot be read ({error.strerror or error})"
            yield file.name, Problem(file.name, 0, found, "let it be read")


def _is_table(name: str) -> bool:
    """Say whether a file is meant as a table; hidden files are other programs' own."""
    return name.lower().endswith(".csv") and not name.startswith(".")


def unknown_table(name: str) -> Problem:
    """Make the fault of a table whose file has no known name, with the nearest that is."""
    shown, known = shown_name(name), list(_KINDS)
    near = get_close_matches(shown.lower(), known, n=1, cutoff=0.6)
    wanted = f"did you mean {near[0]}?" if near else f"the tables are: {', '.join(known)}"
    return Problem(shown, 0, "no table of a season has this name", wanted)


def zip_files(content: bytes, name: str) -> list[File]:
    """Unfold the tables of a zip, wherever in it they lie, within bounds.

    Raises SeasonProblems when it is no zip, or it or what it unfolds to is too much. A
    single file that cannot be unpacked is given with its fault.
    """
    try:
        if len(content) > MOST_BYTES:
            wanted = f"at most {MOST_BYTES:,} bytes are read"
            raise SeasonProblems([Problem(shown_name(name), 0, "the file is too large", wanted)])
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return list(_unfold(archive, shown_name(name), _listed(content)))
    except _DAMAGE as error:
        found = "this is not a zip file, or it is damaged"
        raise SeasonProblems([Problem(shown_name(name), 0, found, _WANTED)]) from error


def _listed(content: bytes) -> int:
    """Give how many files a zip holds by its last record, which zipfile does not heed."""
    (count,) = struct.unpack_from("<H", content, content.rindex(b"PK\x05\x06") + 10)
    return int(count)


def _unfold(archive: zipfile.ZipFile, name: str, listed: int) -> Iterator[File]:
    members = archive.infolist()
    if listed not in (len(members), _COUNTED_ELSEWHERE):
        raise zipfile.BadZipFile("files are missing from the list")
    if len(members) > MOST_FILES:
        found = f"the zip holds {len(members)} files"
        raise SeasonProblems([Problem(name, 0, found, f"at most {MOST_FILES} are read")])
    room = MOST_BYTES
    seen = set[str]()
    for member in members:
        base = PurePosixPath(member.filename.replace("\\", "/")).name
        table = _is_table(base) and not member.is_dir()
        # What is no table is opened too: where the name in the list is damaged, and only
        # there, it differs from the one beside the bytes.
        read = min(MOST_BYTES_A_FILE, room) + 1 if base in _KINDS and base not in seen else 0
        content = _unpacked(archive, member, shown_name(base), read)
        if table and base not in _KINDS:
            yield shown_name(base), unknown_table(base)
        elif base in seen:
            yield base, Problem(base, 0, "the zip holds it twice", "keep one")
        elif table or isinstance(content, Problem):
            seen.add(base)
            yield shown_name(base), content
            room -= len(content) if isinstance(content, bytes) else 0
        if room < 0:
            wanted = f"at most {MOST_BYTES:,} bytes are read"
            raise SeasonProblems([Problem(name, 0, "the zip unfolds to too much", wanted)])


def _unpacked(
    archive: zipfile.ZipFile, member: zipfile.ZipInfo, base: str, most: int
) -> bytes | Problem:
    if member.compress_type not in PACKED:
        wanted = "save the zip again in the usual way (deflated)"
        return Problem(base, 0, "it is packed in an unusual way", wanted)
    try:
        with archive.open(member) as stream:
            return stream.read(most)
    except _DAMAGE:
        wanted = "save the zip again, without a password"
        return Problem(base, 0, "it cannot be unpacked", wanted)


def text_tables(files: Iterable[File]) -> SeasonTables:
    """Turn the files of a season into text tables, with the faults of those that are none."""
    return season_tables(_read(files))


def _read(files: Iterable[File]) -> Iterator[Sheet]:
    for name, content in files:
        if isinstance(content, Problem):
            yield name, SeasonProblems([content])
            continue
        try:
            yield name, text_table(_KINDS[name], content)
        except SeasonProblems as error:
            yield name, error


def season_tables(sheets: Iterable[Sheet]) -> SeasonTables:
    """Put the tables of a season together, with the faults of those that are none."""
    tables: dict[str, TextTable] = {}
    problems: list[Problem] = []
    for name, sheet in sheets:
        if isinstance(sheet, SeasonProblems):
            problems.extend(sheet.problems)
        else:
            tables[name] = sheet
    return SeasonTables(tables, tuple(problems))
