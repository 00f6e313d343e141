"""The words of a name, folded: capitals, accents, plurals and order make no other name."""

import re
import unicodedata
from functools import cache

_PLURALS = (
    *(("oes", "o"), ("ches", "ch"), ("shes", "sh"), ("sses", "ss"), ("xes", "x")),
    ("s", ""),
)
_NO_PLURAL = ("ss", "us")


@cache
def words(name: str) -> frozenset[str]:
    """Give the words of a name, each in the singular, without capitals and accents."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    plain = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return frozenset(_singular(word) for word in re.findall(r"[a-z0-9]+", plain))


def _singular(word: str) -> str:
    if len(word) < 4 or word.endswith(_NO_PLURAL):
        return word
    if len(word) > 4 and word.endswith("ies"):
        return f"{word[:-3]}y"
    for plural, single in _PLURALS:
        if word.endswith(plural):
            return word.removesuffix(plural) + single
    return word
