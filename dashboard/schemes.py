"""The colours of the page by day and by night; those of meaning stand in ``charts/theme.py``."""

PAPER, SHADE, INK, LEAF = "#fdfbf5", "#f1ecdf", "#26231d", "#3f6b3a"
NIGHT, DUSK, CHALK, SPROUT = "#191b17", "#262a22", "#efeadd", "#9cc48d"
INKS = {"light": INK, "dark": CHALK}
