"""A sheet of paper: its size and margins, its letters, and lines that stay inside the margins."""

from datetime import UTC, date, datetime, time
from pathlib import Path

from fpdf import FPDF

FONTS = Path(__file__).parent / "fonts"
FAMILY = "DejaVu"
MARGIN_MM = 12.0
LINE_MM, TEXT_PT, SMALL_PT, HEAD_PT, TITLE_PT = 5.5, 9.5, 8.0, 12.0, 16.0
BOX_MM, GAP_MM = 3.6, 1.4
MISSING, CUT = "\N{WHITE SQUARE}", "\N{HORIZONTAL ELLIPSIS}"


class Sheet:
    """A PDF of A4 or US Letter pages, written line by line from the top."""

    def __init__(self, title: str, head: str, made_on: date, paper: str = "a4") -> None:
        """Begin the first page; ``paper`` is a4 or letter, ``head`` stands under the title."""
        self._pdf = FPDF(unit="mm", format=paper)
        self._pdf.set_creation_date(datetime.combine(made_on, time(), UTC))
        self._pdf.set_margin(MARGIN_MM)
        self._pdf.set_auto_page_break(auto=True, margin=MARGIN_MM)
        self._pdf.add_font(FAMILY, "", FONTS / "DejaVuSans.ttf")
        self._pdf.add_font(FAMILY, "B", FONTS / "DejaVuSans-Bold.ttf")
        self._pdf.add_page()
        self.line(title, TITLE_PT, bold=True)
        self.line(head, SMALL_PT)

    def line(self, words: str, size_pt: float = TEXT_PT, *, bold: bool = False) -> None:
        """Write one line, cut where the paper ends."""
        self._pdf.set_font(FAMILY, "B" if bold else "", size_pt)
        height = max(LINE_MM, size_pt * 0.5)
        self._pdf.cell(
            0, height, self._fitting(words, self._pdf.epw), new_x="LMARGIN", new_y="NEXT"
        )

    def heading(self, words: str) -> None:
        """Write a heading that does not stand alone at the foot of a page."""
        if self._pdf.will_page_break(4 * LINE_MM):
            self._pdf.add_page()
        self._pdf.ln(2)
        self.line(words, HEAD_PT, bold=True)

    def cells(self, words: list[str], shares: list[float]) -> None:
        """Write a row of cells, each as wide as its share of the line."""
        self._pdf.set_font(FAMILY, "", TEXT_PT)
        for text, share in zip(words, shares, strict=True):
            width = self._pdf.epw * share / sum(shares)
            self._pdf.cell(width, LINE_MM, self._fitting(text, width - 1))
        self._pdf.ln(LINE_MM)

    def boxes(self, number: int) -> None:
        """Draw boxes to tick or strike out, in as many lines as they need."""
        step = BOX_MM + GAP_MM
        across = int((self._pdf.epw - 1) // step)
        while number > 0:
            if self._pdf.will_page_break(step):
                self._pdf.add_page()
            for place in range(min(number, across)):
                self._pdf.rect(MARGIN_MM + 1 + place * step, self._pdf.get_y(), BOX_MM, BOX_MM)
            self._pdf.ln(step)
            number -= across

    def pdf(self) -> bytes:
        """Give the finished PDF."""
        return bytes(self._pdf.output())

    def _fitting(self, words: str, width_mm: float) -> str:
        """Give words as far as they fit; a letter that the font lacks is shown as a square."""
        known = self._pdf.current_font.cmap
        text = "".join(c if ord(c) in known else MISSING for c in " ".join(words.split()))
        if self._pdf.get_string_width(text) <= width_mm:
            return text
        while text and self._pdf.get_string_width(text + CUT) > width_mm:
            text = text[:-1]
        return text + CUT
