"""Rendered pages and their words, read by another library than the one that wrote them."""

from dataclasses import dataclass

import numpy as np
import pypdfium2

NASTY = "=1+1 <b>'\"&</b> \u0645\u0631\u0628\u0649 \U0001f345 " + "long " * 60
EDGE_MM, POINTS_AN_INCH, MM_AN_INCH = 8.0, 72.0, 25.4
# ISO 216 and the customary size of the United States, in whole points.
A4, LETTER = (595, 842), (612, 792)


@dataclass(frozen=True)
class Read:
    """A PDF as it is read: the words of each page, their size, whether all edges are blank."""

    pages: tuple[str, ...]
    size: tuple[int, int]
    blank_edges: bool

    @property
    def words(self) -> str:
        """Give the words of all pages, one blank between them."""
        return " ".join(" ".join(self.pages).split())


def read(pdf: bytes) -> Read:
    """Render a PDF and read it; the outer 8 mm of each page are its edges."""
    document = pypdfium2.PdfDocument(pdf)
    pages, blank, size = [], True, (0, 0)
    for page in document:
        pages.append(page.get_textpage().get_text_range())
        size = (round(page.get_width()), round(page.get_height()))
        ink = np.asarray(page.render(scale=1, grayscale=True).to_numpy()).squeeze() < 250
        edge = round(EDGE_MM / MM_AN_INCH * POINTS_AN_INCH)
        ink[edge:-edge, edge:-edge] = False
        blank = blank and not ink.any()
    document.close()
    return Read(tuple(pages), size, blank)
