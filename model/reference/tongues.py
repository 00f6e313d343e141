"""US and UK words for the same crop, food or place: for the eye only, never for what is kept."""

import re
from functools import cache

from model.reference.read import table


def in_tongue(text: str, tongue: str) -> str:
    """Give a name or a sentence in US or UK words (``tongue``: US or UK).

    Whole words and phrases, the longest first; a capital first letter stays one. Saying it
    twice says the same.

    Raises KeyError for another tongue. Source: the reference table ``words_us_uk``.

    >>> model.in_tongue("Frozen courgettes", "US")
    'Frozen zucchini'
    """
    phrases, said = _words(tongue)
    return phrases.sub(lambda found: _as_written(found.group(), said), text)


def _as_written(was: str, said: dict[str, str]) -> str:
    """Give the other word; a first letter that is no capital in the table keeps its own size."""
    word = said[was.lower()]
    return word[0].upper() + word[1:] if was[0].isupper() and was not in said else word


@cache
def _words(tongue: str) -> tuple[re.Pattern[str], dict[str, str]]:
    rows = [(row["word"], row[tongue.lower()]) for row in table("words_us_uk")]
    said = {known: word for own, word in rows for known in (own, own.lower())}
    longest = sorted(said, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest))})\b", re.IGNORECASE), said
