"""Names of a household stand in plain tables and titles as they were written."""

from datetime import date

import pandas as pd
import pytest
from markdown_it import MarkdownIt

from dashboard.plain import cells, letters_wide, plain, written

HOSTILE = [
    "**bold** _beans_ ~gone~",
    "[press here](https://example.org)",
    "![seen](https://example.org/seen.png)",
    "<b>beans</b> <script>1</script>",
    "# beans",
    "- beans",
    "+ beans",
    "1. beans",
    "2) beans",
    "12. beans",
    "www.example.org ours@example.org",
    "`beans` $1$ | a",
    ":red[beans] :material/home:",
]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_markup_in_a_name_is_acted_on(name: str) -> None:
    """The reference is CommonMark as a well-kept library reads it."""
    read = MarkdownIt("commonmark").parse(plain(name))

    assert [token.type for token in read] == ["paragraph_open", "inline", "paragraph_close"]
    assert {token.type for token in read[1].children or []} <= {"text", "text_special"}
    assert "".join(token.content for token in read[1].children or []) == name


def test_a_table_is_read_cell_for_cell_as_it_was_written() -> None:
    """The reference is a well-kept library's reading of tables in Markdown."""
    names = HOSTILE[1:]  # the first begins as first words that are to be bold
    frame = pd.DataFrame({"what|where": names, "b": ["", None, *["a | b\n| c"] * 10]})

    read = MarkdownIt("commonmark").enable("table").parse(written(cells(frame)))
    told = [
        "".join(part.content for part in token.children or [])
        for token in read
        if token.type == "inline"
    ]

    assert told[:2] == ["what|where", "b"]
    assert told[2::2] == names
    assert told[3::2] == ["", "", *["a | b | c"] * 10]


def test_a_number_stays_with_its_unit_a_day_is_read_and_the_unknown_is_blank() -> None:
    told = _rows(pd.DataFrame({"a": ["1.8 to 20 kg", date(2027, 8, 16), None, 1234.5, True]}))

    assert [cell.replace("\N{NO-BREAK SPACE}", "_") for cell in told] == [
        "1.8_to 20_kg",
        "16_Aug 2027",
        "",
        "1,234.5",
        "yes",
    ]


def test_only_the_first_words_of_a_cell_can_be_in_bold() -> None:
    told = _rows(pd.DataFrame({"a": ["**sort first** 2 *of* it", "of **it**"]}))

    assert told[1] == "of \\*\\*it\\*\\*"
    assert _rows(pd.DataFrame({"a": ["**sort first**, now"]})) == ["**sort first**, now"]


def test_a_table_is_as_wide_as_its_longest_words_which_do_not_part_from_their_numbers() -> None:
    told = cells(pd.DataFrame({"crop": ["pickling cucumber"], "much": ["12 kg to 1,400 kg"]}))

    assert letters_wide(told) == len("cucumber") + len("1,400 kg")


def _rows(frame: pd.DataFrame) -> list[str]:
    """Give the cells of a table with one column, without its head."""
    return [line[2:-2] for line in written(cells(frame)).splitlines()[2:]]
