"""What a column of an outlook table is called on a screen."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Heading:
    """One column: the words of its heading, its unit (blank for none) and what it means."""

    words: str
    unit: str
    meaning: str

    @property
    def with_unit(self) -> str:
        """Give the words with the unit behind them, as over a column of numbers."""
        told = not self.unit or self.unit == self.words.lower()
        return self.words if told else f"{self.words} ({self.unit})"
