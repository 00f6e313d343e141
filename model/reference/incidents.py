"""What to do when something went wrong, as published: unsealed and suspect jars, a thaw."""

from dataclasses import dataclass

from model.reference.read import table

UNSEALED, SUSPECT, THAWED = "unsealed jar", "suspect jar", "thawed freezer"
ANY = "any"


@dataclass(frozen=True, slots=True)
class Step:
    """One step in words, with the keys of its sources; ``went`` is where a jar goes by it."""

    words: str
    source: str
    went: str


def steps_for(happened: str, found: str = ANY) -> tuple[Step, ...]:
    """List the steps for something that happened, in order: the general ones and the found's."""
    return tuple(
        Step(row["step"], row["source"], row["went"])
        for row in table("incidents")
        if row["happened"] == happened and row["found"] in (found, ANY)
    )
