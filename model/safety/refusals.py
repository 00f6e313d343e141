"""Why a name has no tested process, and what to do instead.

Nothing is offered because it is spelled alike. An offer is a tested product of a crop that
the name holds; where it holds none that is known, one whose own name holds all its words.
"""

from model.reference.lookup import products
from model.reference.read import table
from model.reference.words import words
from model.safety.methods import RECIPE, crops_named, ways_that_remain


def why_not(name: str) -> tuple[str, list[str]]:
    """Give the reason for refusing a name that is no tested product, and the ways that remain."""
    spoken = words(name)
    for row in table("no_tested_process"):
        if any(_holds(spoken, phrase) for phrase in row["words"].split(";")):
            return f"{row['food']}: {row['reason']}", row["ways"].split(";")
    tested = _tested_products(name)
    ways = list(dict.fromkeys([*tested, *ways_that_remain(name)]))
    if tested:
        return f"{name!r} is no tested product: a process belongs to one product and pack", ways
    return f"no tested process for {name!r} in the tables", ways


def _holds(spoken: frozenset[str], phrase: str) -> bool:
    """Say whether a name holds a phrase's words, in any order; a slash parts alternatives."""
    return all(
        any(words(choice) <= spoken for choice in part.split("/")) for part in phrase.split()
    )


def _tested_products(name: str) -> list[str]:
    named, spoken = set(crops_named(name)), words(name)
    if not named:
        return [f"{RECIPE}{known}" for known in products() if spoken and spoken <= words(known)]
    found = []
    for product, row in products().items():
        own = named & set(row["crops"].split(";"))
        if own:
            hot_only = own <= set(row["hot_pack_only"].split(";"))
            found.append(f"{RECIPE}{product}{' (hot pack only)' if hot_only else ''}")
    return found
