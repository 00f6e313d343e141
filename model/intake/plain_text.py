"""Text that neither a spreadsheet nor a screen acts on: taken in plain, sent out neutral.

A spreadsheet takes a cell that begins with = + - or @ for a formula, however it came there.
So text sent out gets a leading apostrophe, which is taken off again when it is taken in.
Source: CSV Injection, OWASP community pages (the leading characters, full-width ones too).
"""

import re
import unicodedata

_ACTED_ON = re.compile(r"'*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]")
_NUMBER = re.compile(r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?", re.ASCII)
# Control and format characters (bidirectional marks, zero widths), halves of characters,
# separators of lines: they change what is seen, or let two names look the same.
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
_LOST = frozenset("\ufffd\ufffe\uffff")


def neutral(text: str) -> str:
    """Give the text of a cell as it is sent out; a plain number stays one."""
    return f"'{text}" if _ACTED_ON.match(text) and not _NUMBER.fullmatch(text) else text


def taken_in(text: str) -> str:
    """Give the text of a cell as it is kept: no blanks around it, no apostrophe of ``neutral``."""
    plain = text.strip().replace("\r\n", "\n").replace("\r", "\n")
    return plain[1:] if plain.startswith("'") and _ACTED_ON.match(plain) else plain


def unseen_character(text: str) -> str | None:
    """Name the first character that is not seen as what it is; None when there is none.

    A line's end within a cell is none of them.
    """
    if text.isascii() and text.isprintable():
        return None
    for letter in text:
        if letter != "\n" and (unicodedata.category(letter) in _UNSEEN or letter in _LOST):
            name = unicodedata.name(letter, "a control character").lower()
            return f"U+{ord(letter):04X} ({name})"
    return None
