"""A folder, a zip or an upload of CSV files, read as text within bounds.

Uploads are hostile: file names are never used as paths, and size, rows and the bytes
that a zip unfolds to are bounded before anything is parsed.
"""

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath

from model.errors import Problem, SeasonProblems
from model.intake.home_columns import HOME_TABLES
from model.intake.kitchen_columns import KITCHEN_TABLES
from model.intake.tables import SeasonTables, TextTable

TABLE_KINDS = HOME_TABLES + KITCHEN_TABLES
MOST_BYTES_A_FILE = 2_000_000
MOST_BYTES = 10_000_000
MOST_ROWS = 20_000
MOST_FILES = 60
MOST_CELL = 500

_KNOWN = {kind.file for kind in TABLE_KINDS}


def read_tables(path: str | Path) -> SeasonTables:
    """Read every known table of a folder or a zip.

    Raises
    ------
    SeasonProblems : when there is nothing to read, or a file is too large or no CSV.
    """
    place = Path(path)
    texts: Iterable[tuple[str, bytes]]
    if place.is_dir():
        texts = _folder_texts(place)
    elif place.is_file():
        texts = zip_texts(place.read_bytes() if _fits(place) else b"", place.name)
    else:
        wanted = "give a folder or a zip of the season's CSV files"
        raise SeasonProblems([Problem(place.name, 0, "there is no such folder or zip", wanted)])
    return text_tables(texts)


def _fits(place: Path) -> bool:
    size = place.stat().st_size
    if size > MOST_BYTES:
        found = f"the file has {size:,} bytes"
        raise SeasonProblems([Problem(place.name, 0, found, f"at most {MOST_BYTES:,} are read")])
    return True


def _folder_texts(folder: Path) -> Iterator[tuple[str, bytes]]:
    for name in sorted(_KNOWN):
        file = folder / name
        if file.is_file():
            with file.open("rb") as stream:
                yield name, stream.read(MOST_BYTES_A_FILE + 1)


def zip_texts(content: bytes, name: str) -> list[tuple[str, bytes]]:
    """Unfold the known tables of a zip, wherever in it they lie, within bounds.

    Raises SeasonProblems when it is no zip, holds a table twice or unfolds to too much.
    """
    try:
        archive = zipfile.ZipFile(io.BytesIO(content))
    except zipfile.BadZipFile as error:
        wanted = "give a folder or a zip of the season's CSV files"
        raise SeasonProblems([Problem(name, 0, "this is not a zip file", wanted)]) from error
    with archive:
        return _unfold(archive, name)


def _unfold(archive: zipfile.ZipFile, name: str) -> list[tuple[str, bytes]]:
    members = archive.infolist()
    if len(members) > MOST_FILES:
        found = f"the zip holds {len(members)} files"
        raise SeasonProblems([Problem(name, 0, found, f"at most {MOST_FILES} are read")])
    texts: dict[str, bytes] = {}
    room = MOST_BYTES
    for member in members:
        base = PurePosixPath(member.filename.replace("\\", "/")).name
        if base not in _KNOWN:
            continue
        if base in texts:
            raise SeasonProblems([Problem(base, 0, "the zip holds it twice", "keep one")])
        try:
            with archive.open(member) as stream:
                texts[base] = stream.read(min(MOST_BYTES_A_FILE, room) + 1)
        except (RuntimeError, NotImplementedError, zipfile.BadZipFile, EOFError) as error:
            wanted = "save the zip again, without a password"
            raise SeasonProblems([Problem(base, 0, "it cannot be unpacked", wanted)]) from error
        room -= len(texts[base])
        if room < 0:
            wanted = f"at most {MOST_BYTES:,} bytes are read"
            raise SeasonProblems([Problem(name, 0, "the zip unfolds to too much", wanted)])
    return sorted(texts.items())


def text_tables(texts: Iterable[tuple[str, bytes]]) -> SeasonTables:
    """Turn the bytes of CSV files into text tables; raises SeasonProblems with every fault."""
    tables: dict[str, TextTable] = {}
    problems: list[Problem] = []
    for name, content in texts:
        try:
            tables[name] = _text_table(name, content)
        except SeasonProblems as error:
            problems.extend(error.problems)
    problems.extend(
        Problem(kind.file, 0, "the file is missing", f"each row is {kind.row_is}")
        for kind in TABLE_KINDS
        if kind.required
        and kind.file not in tables
        and not any(p.file == kind.file for p in problems)
    )
    if problems:
        raise SeasonProblems(problems)
    return SeasonTables(tables)


def _text_table(name: str, content: bytes) -> TextTable:
    if len(content) > MOST_BYTES_A_FILE:
        wanted = f"at most {MOST_BYTES_A_FILE:,} bytes are read"
        raise SeasonProblems([Problem(name, 0, "the file is too large", wanted)])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        found = f"byte {error.start + 1} is not UTF-8"
        raise SeasonProblems([Problem(name, 0, found, "save it as CSV UTF-8")]) from error
    if "\0" in text:
        raise SeasonProblems([Problem(name, 0, "it holds NUL bytes", "save it as CSV UTF-8")])
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    except csv.Error as error:
        wanted = "save it as CSV with commas and closed quotes"
        raise SeasonProblems([Problem(name, 0, f"it is no CSV ({error})", wanted)]) from error
    return _checked(name, rows)


def _checked(name: str, rows: list[list[str]]) -> TextTable:
    if not rows:
        raise SeasonProblems([Problem(name, 0, "the file is empty", "the first row is headings")])
    headings = tuple(heading.strip() for heading in rows[0])
    problems = list(_heading_problems(name, headings))
    if len(rows) - 1 > MOST_ROWS:
        wanted = f"at most {MOST_ROWS:,} are read"
        problems.append(Problem(name, 0, f"it has {len(rows) - 1:,} rows", wanted))
    if problems:
        raise SeasonProblems(problems)
    kept = []
    for number, cells in enumerate(rows[1:], start=2):
        stripped = [cell.strip() for cell in cells]
        if not any(stripped):
            continue
        if len(stripped) > len(headings):
            found = f"{len(stripped)} cells under {len(headings)} headings"
            problems.append(
                Problem(name, number, found, "write 3.5, not 3,5; quote commas in text")
            )
        if any(len(cell) > MOST_CELL for cell in stripped):
            problems.append(
                Problem(name, number, "a cell is too long", f"at most {MOST_CELL} letters")
            )
        stripped += [""] * (len(headings) - len(stripped))
        kept.append((number, dict(zip(headings, stripped, strict=False))))
    if problems:
        raise SeasonProblems(problems)
    return TextTable(headings, tuple(kept))


def _heading_problems(name: str, headings: tuple[str, ...]) -> Iterator[Problem]:
    if len(headings) == 1 and (";" in headings[0] or "\t" in headings[0]):
        yield Problem(
            name, 1, "the cells are not separated by commas", "save it as CSV with commas"
        )
    for heading in sorted(set(headings)):
        if heading and headings.count(heading) > 1:
            yield Problem(name, 1, f"the heading {heading!r} stands twice", "keep one")
