"""What was said on a page and is kept while the session lasts: a tried change, a glut."""

from dataclasses import dataclass
from datetime import date

from model import Change


@dataclass(frozen=True)
class Tried:
    """A change that is kept while the session lasts: when it was made, and its words."""

    day: date
    change: Change
    words: str


@dataclass(frozen=True)
class OnTable:
    """A glut as it was typed: the pile, what of it is bruised (kg by crop), and the free hours."""

    pile_kg: dict[str, float]
    bruised_kg: dict[str, float]
    hours: float
