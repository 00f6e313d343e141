"""A sheet of paper: its size and margins, its letters, and lines that stay inside the margins."""

from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time
from pathlib import Path

from fpdf import FPDF
from fpdf.enums import MethodReturnValue

from dashboard.units import US
from model import Season

FONTS = Path(__file__).parent / "fonts"
FAMILY = "DejaVu"
MARGIN_MM, FOOT_MM = 12.0, 5.0
LINE_MM, TEXT_PT, SMALL_PT, HEAD_PT, TITLE_PT = 5.5, 9.5, 8.0, 12.0, 16.0
BOX_MM, GAP_MM, RULED_MM = 3.6, 1.4, 7.5
ABOVE_HEAD_MM, LABEL_PAD_MM = 2.0, 2.0
HEADING_MM = ABOVE_HEAD_MM + HEAD_PT / 2
INVENTED = ", an invented household"
MISSING, CUT = "\N{WHITE SQUARE}", "\N{HORIZONTAL ELLIPSIS}"


class _Pages(FPDF):
    """Pages with whose they are, and which of how many, at the foot of each."""

    foot = ""

    def footer(self) -> None:
        self.set_y(-MARGIN_MM - FOOT_MM + 1)
        self.set_font(FAMILY, "", SMALL_PT)
        self.cell(self.epw * 0.75, FOOT_MM - 1, self.foot)
        self.cell(self.epw * 0.25, FOOT_MM - 1, f"page {self.page_no()} of {{nb}}", align="R")


class Sheet:
    """A PDF of A4 or US Letter pages, written line by line from the top."""

    def __init__(self, season: Season, title: str, said: str, made_on: date) -> None:
        """Begin the first page of a sheet on the household's own size of paper.

        Whose it is stands under the title with what is ``said``, and at the foot of every page;
        an invented household is marked so in both places.
        """
        self._pdf = _Pages(unit="mm", format="letter" if season.units == US else "a4")
        self._pdf.set_creation_date(datetime.combine(made_on, time(), UTC))
        self._pdf.set_margin(MARGIN_MM)
        self._pdf.set_auto_page_break(auto=True, margin=MARGIN_MM + FOOT_MM)
        self._pdf.add_font(FAMILY, "", FONTS / "DejaVuSans.ttf")
        self._pdf.add_font(FAMILY, "B", FONTS / "DejaVuSans-Bold.ttf")
        self._font(SMALL_PT)
        mark = INVENTED if season.invented else ""
        rest = self._pdf.epw / 2 - self._pdf.get_string_width(mark)
        self._pdf.foot = self._fitting(season.household, rest) + mark
        self._pdf.add_page()
        self.line(title, TITLE_PT, bold=True)
        self.line(f"{self._pdf.foot} · {said}", SMALL_PT)

    @property
    def room_mm(self) -> float:
        """Give the height that is left on the page."""
        return float(self._pdf.page_break_trigger - self._pdf.get_y())

    def together(self, height_mm: float) -> None:
        """Go on with a new page where so much does not fit on this one."""
        if self._pdf.will_page_break(height_mm):
            self._pdf.add_page()

    def line(self, words: str, size_pt: float = TEXT_PT, *, bold: bool = False) -> None:
        """Write one line, cut where the paper ends."""
        self._font(size_pt, bold=bold)
        height = max(LINE_MM, size_pt * 0.5)
        self._pdf.cell(
            0, height, self._fitting(words, self._pdf.epw), new_x="LMARGIN", new_y="NEXT"
        )

    def heading(self, words: str) -> None:
        """Write a heading that does not stand alone at the foot of a page."""
        self.together(4 * LINE_MM)
        self._pdf.ln(ABOVE_HEAD_MM)
        self.line(words, HEAD_PT, bold=True)

    def text(self, words: str, *, box: bool = False, bold: bool = False) -> None:
        """Write words in as many lines as they need, nothing cut."""
        self.cells([words], [1.0], box=box, bold=bold)

    def head(self, words: list[str], shares: list[float]) -> None:
        """Write the headings of rows that have boxes to tick."""
        self.cells(words, shares, bold=True, left_mm=BOX_MM + 2 * GAP_MM)

    def cells(
        self,
        words: list[str],
        shares: list[float],
        *,
        box: bool = False,
        bold: bool = False,
        left_mm: float = 0.0,
    ) -> None:
        """Write a row of cells, each as wide as its share of the line, in as many lines as needed.

        With ``box`` a box to tick stands before it.
        """
        self._font(TEXT_PT, bold=bold)
        left = self._pdf.l_margin + (BOX_MM + 2 * GAP_MM if box else left_mm)
        width = (self._pdf.w - self._pdf.r_margin - left) / sum(shares)
        lines = [
            self._wrapped(text, width * share - 1)
            for text, share in zip(words, shares, strict=True)
        ]
        height = LINE_MM * max(len(own) for own in lines)
        self.together(height)
        top = self._pdf.get_y()
        if box:
            self._pdf.rect(self._pdf.l_margin + 1, top + 0.9, BOX_MM, BOX_MM)
        for own, share in zip(lines, shares, strict=True):
            for place, text in enumerate(own):
                self._pdf.set_xy(left, top + place * LINE_MM)
                self._pdf.cell(width * share, LINE_MM, text)
            left += width * share
        self._pdf.set_xy(self._pdf.l_margin, top + height)

    def tally(self, words: list[str], shares: list[float], number: int) -> None:
        """Write a row of cells in as many lines as needed; the last cell holds boxes to tick."""
        height = self.row_mm(words, shares, number)
        self.together(height)
        top, across = self._pdf.get_y(), self.most_boxes(shares)
        self.cells([*words, ""], shares)
        left = self._pdf.w - self._pdf.r_margin - self._pdf.epw * shares[-1] / sum(shares)
        for place in range(number):
            x = left + place % across * (BOX_MM + GAP_MM)
            self._pdf.rect(x, top + 0.9 + place // across * LINE_MM, BOX_MM, BOX_MM)
        self._pdf.set_xy(self._pdf.l_margin, top + height)

    def row_mm(self, words: list[str], shares: list[float], number: int = 0) -> float:
        """Give the height of a row of cells; with boxes, those stand in the last one."""
        self._font(TEXT_PT)
        each = self._pdf.epw / sum(shares)
        lines = [
            len(self._wrapped(text, each * share - 1))
            for text, share in zip(words, shares, strict=False)
        ]
        if number:
            lines.append(-(-number // self.most_boxes(shares)))
        return LINE_MM * max(lines)

    def most_boxes(self, shares: list[float]) -> int:
        """Give how many boxes stand in the last cell of a row."""
        return int(self._pdf.epw * shares[-1] / sum(shares) // (BOX_MM + GAP_MM))

    def ruled(self, shares: list[float], number: int) -> None:
        """Draw empty lines to write on, parted into cells."""
        each = self._pdf.epw / sum(shares)
        for _ in range(number):
            self.together(RULED_MM)
            left, foot = self._pdf.l_margin, self._pdf.get_y() + RULED_MM
            for share in shares:
                self._pdf.line(left, foot, left + each * share - 2, foot)
                left += each * share
            self._pdf.ln(RULED_MM)

    def labels(self, labels: Sequence[Sequence[str]], across: int) -> None:
        """Draw labels in frames to cut along, the first line of each bold; nothing is cut off."""
        width = self._pdf.epw / across
        shown = [self._label(lines, width - 2 * LABEL_PAD_MM) for lines in labels]
        height = max((len(lines) for lines in shown), default=0) * LINE_MM + 2 * LABEL_PAD_MM
        for first in range(0, len(shown), across):
            self.together(height)
            top = self._pdf.get_y()
            for place, lines in enumerate(shown[first : first + across]):
                left = self._pdf.l_margin + place * width
                self._pdf.rect(left, top, width, height)
                for number, (words, bold) in enumerate(lines):
                    self._font(TEXT_PT, bold=bold)
                    self._pdf.set_xy(left + LABEL_PAD_MM, top + LABEL_PAD_MM + number * LINE_MM)
                    self._pdf.cell(width, LINE_MM, words)
            self._pdf.set_xy(self._pdf.l_margin, top + height)

    def _label(self, lines: Sequence[str], width_mm: float) -> list[tuple[str, bool]]:
        found = []
        for place, words in enumerate(lines):
            self._font(TEXT_PT, bold=not place)
            found += [(part, not place) for part in self._wrapped(words, width_mm)]
        return found

    def bullets(self, points: Iterable[str]) -> None:
        """Write points, each in as many lines as it needs."""
        for words in points:
            self.text(f"\N{BULLET} {words}")

    def pdf(self) -> bytes:
        """Give the finished PDF."""
        return bytes(self._pdf.output())

    def _font(self, size_pt: float, *, bold: bool = False) -> None:
        self._pdf.set_font(FAMILY, "B" if bold else "", size_pt)

    def _known(self, words: str) -> str:
        """Give words in letters that the font has; others are shown as a square."""
        known = self._pdf.current_font.cmap
        return "".join(c if ord(c) in known else MISSING for c in " ".join(words.split()))

    def _wrapped(self, words: str, width_mm: float) -> list[str]:
        lines: list[str] = self._pdf.multi_cell(
            width_mm,
            LINE_MM,
            self._known(words),
            align="L",
            padding=0,
            dry_run=True,
            output=MethodReturnValue.LINES,
        )
        return lines or [""]

    def _fitting(self, words: str, width_mm: float) -> str:
        """Give words as far as they fit."""
        text = self._known(words)
        if self._pdf.get_string_width(text) <= width_mm:
            return text
        while text and self._pdf.get_string_width(text + CUT) > width_mm:
            text = text[:-1]
        return text + CUT
