"""Colours told apart by every eye: simulated colour blindness, by day and by night.

Matrices: Machado, Oliveira and Fernandes (2009), severity 1.0, on linear RGB; difference:
CIEDE2000 with the test pairs of Sharma, Wu and Dalal (2005). Both as open-source colour
libraries print them, alike in all that were looked at; the papers themselves were not at hand.
Common practice, no source: 10 is several just noticeable differences.
"""

from itertools import combinations

import altair as alt
import numpy as np
import pandas as pd
import pytest

from dashboard.charts.stock_chart import COLOURS, preserve_curves
from dashboard.charts.theme import CLAY, FAINT, LEAF, OCHRE, PLUM, RUST, SLATE
from dashboard.schemes import CHALK, INK, NIGHT, PAPER
from tests.dashboard.test_charts import TODAY, charts, layers  # noqa: F401 - a fixture

EYES = {
    "every colour": np.eye(3),
    "no red": np.array(
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ]
    ),
    "no green": np.array(
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ]
    ),
    "no blue": np.array(
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ]
    ),
}
# IEC 61966-2-1: linear sRGB to XYZ, white D65.
XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]],
)
APART = 10.0
MEANINGS = {LEAF, CLAY, SLATE, OCHRE, RUST, PLUM, FAINT}


def linear(colour: str) -> np.ndarray:
    parts = np.array([int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)])
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def lab(light: np.ndarray) -> np.ndarray:
    """CIE 1976 L*a*b* of linear RGB."""
    part = XYZ @ np.clip(light, 0, 1) / XYZ.sum(axis=1)
    root = np.where(part > (6 / 29) ** 3, np.cbrt(part), part * 841 / 108 + 4 / 29)
    return np.array([116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])])


def difference(one: np.ndarray, other: np.ndarray) -> float:
    """CIEDE2000 between two L*a*b* colours."""
    chroma = (np.hypot(*one[1:]) + np.hypot(*other[1:])) / 2
    grey = 0.5 * (1 - np.sqrt(chroma**7 / (chroma**7 + 25.0**7)))
    a1, a2 = (1 + grey) * one[1], (1 + grey) * other[1]
    c1, c2 = np.hypot(a1, one[2]), np.hypot(a2, other[2])
    h1, h2 = (np.degrees(np.arctan2(b, a)) % 360 for a, b in ((a1, one[2]), (a2, other[2])))
    turn = (h2 - h1 + 180) % 360 - 180 if c1 * c2 else 0.0
    hue = h1 + turn / 2 if c1 * c2 else h1 + h2
    lightness, c = (one[0] + other[0]) / 2, (c1 + c2) / 2
    waves = ((0.17, 1, -30), (-0.24, 2, 0), (-0.32, 3, 6), (0.20, 4, -63))
    t = 1 - sum(size * np.cos(np.radians(times * hue + off)) for size, times, off in waves)
    s_l = 1 + 0.015 * (lightness - 50) ** 2 / np.sqrt(20 + (lightness - 50) ** 2)
    by_l = (other[0] - one[0]) / s_l
    by_c = (c2 - c1) / (1 + 0.045 * c)
    by_h = 2 * np.sqrt(c1 * c2) * np.sin(np.radians(turn / 2)) / (1 + 0.015 * c * t)
    bend = np.radians(60 * np.exp(-(((hue % 360 - 275) / 25) ** 2)))
    twist = -2 * np.sqrt(c**7 / (c**7 + 25.0**7)) * np.sin(bend)
    return float(np.sqrt(by_l**2 + by_c**2 + by_h**2 + twist * by_c * by_h))


def least_difference(one: str, other: str) -> float:
    """Give the difference to the eyes that tell two colours apart least."""
    return min(
        difference(lab(eye @ linear(one)), lab(eye @ linear(other))) for eye in EYES.values()
    )


@pytest.mark.parametrize(
    ("one", "other", "known"),
    [
        # Sharma, Wu and Dalal (2005), pairs 1, 7, 17 and 25 of their published test data.
        ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
        ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
        ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
        ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ],
)
def test_the_difference_is_that_of_published_pairs(
    one: tuple[float, ...], other: tuple[float, ...], known: float
) -> None:
    assert difference(np.array(one), np.array(other)) == pytest.approx(known, abs=1e-4)


def test_the_eyes_take_white_for_white_and_mix_up_a_leaf_and_a_brick() -> None:
    leaf, brick = linear("#4f8a3c"), linear("#b4632a")

    for eye in EYES.values():
        assert eye @ np.ones(3) == pytest.approx(np.ones(3), abs=1e-4)
    seen = {name: difference(lab(eye @ leaf), lab(eye @ brick)) for name, eye in EYES.items()}
    assert {name for name, off in seen.items() if off < APART} == {"no red", "no green"}


def looks(chart: alt.LayerChart) -> list[str]:
    """Give the colours that a chart means something by."""
    found: set[str] = set()
    for layer, _ in layers(chart.to_dict()):
        found.add(layer["mark"].get("color", ""))
        scale = layer["encoding"].get("color", {}).get("scale", {})
        found.update(scale.get("range", []))
    return sorted(found & MEANINGS)


def test_all_colours_of_a_chart_are_told_apart_by_every_eye(
    charts: dict[str, alt.LayerChart],  # noqa: F811
) -> None:
    near = {
        (name, one, other)
        for name, chart in charts.items()
        for one, other in combinations(looks(chart), 2)
        if least_difference(one, other) < APART
    }

    assert near == set()
    assert len(looks(charts["supply"])) >= 4


def test_a_colour_means_one_thing_in_all_charts(
    charts: dict[str, alt.LayerChart],  # noqa: F811
) -> None:
    """The table of colours in DEVELOPERS.md: ochre is the root store, slate the freezer."""
    stores = {name for name, chart in charts.items() if {OCHRE, SLATE} & set(looks(chart))}

    assert "supply" in stores
    assert not stores & {"lasts", "curve", "small", "hours", "picked", "picked crop", "day"}


def test_the_sources_of_supply_and_the_preserves_of_a_food_are_told_apart_too() -> None:
    for colours in (COLOURS, [LEAF, CLAY, SLATE, OCHRE, PLUM, FAINT]):
        assert min(least_difference(*pair) for pair in combinations(colours, 2)) >= APART


def test_many_preserves_are_told_apart_by_colour_or_dash() -> None:
    names = [f"preserve {n:02d}" for n in range(30)]
    stock = pd.DataFrame(
        [{"preserve": n, "day": TODAY, "jars": 1.0, "low": 0.0, "high": 2.0} for n in names]
    )
    lean = pd.DataFrame([{"begins": TODAY, "ends": TODAY}])
    marks = pd.DataFrame([{"day": TODAY, "what": "today"}])
    spec = preserve_curves(stock, lean, marks, "t", "Jars").to_dict()
    line = next(e for e in (x["encoding"] for x, _ in layers(spec)) if "strokeDash" in e)
    both = zip(line["color"]["scale"]["range"], line["strokeDash"]["scale"]["range"], strict=True)

    assert len({(colour, tuple(dash)) for colour, dash in both}) == len(names)
    assert line["color"]["legend"]["columns"] == 1


def contrast(one: str, other: str) -> float:
    """WCAG 2.1, contrast ratio by relative luminance."""
    first, second = (float(np.array([0.2126, 0.7152, 0.0722]) @ linear(c)) for c in (one, other))
    return (max(first, second) + 0.05) / (min(first, second) + 0.05)


@pytest.mark.parametrize("colour", sorted(MEANINGS))
@pytest.mark.parametrize("ground", [PAPER, NIGHT])
def test_a_colour_stands_out_from_the_page_by_day_and_by_night(colour: str, ground: str) -> None:
    # WCAG 2.1, success criterion 1.4.11: graphics need a contrast of 3 to 1.
    assert contrast(colour, ground) >= 3


@pytest.mark.parametrize(("ink", "ground"), [(INK, PAPER), (CHALK, NIGHT)])
def test_words_in_charts_stand_out_from_the_page(ink: str, ground: str) -> None:
    # WCAG 2.1, success criterion 1.4.6: words need a contrast of 7 to 1 at best.
    assert contrast(ink, ground) >= 7
