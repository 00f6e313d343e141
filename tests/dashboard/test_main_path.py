"""The main path in a real browser, wide in the light and narrow in the dark."""

import re
from collections.abc import Iterator
from itertools import pairwise

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.dashboard.walking import (
    BOTH,
    NARROW,
    PLACES,
    WIDE,
    Screen,
    fits,
    go,
    look_from,
    settle,
    walked,
)

pytestmark = pytest.mark.browser


@pytest.fixture(params=BOTH.values(), ids=BOTH)
def page(browser: Browser, address: str, request: pytest.FixtureRequest) -> Iterator[Page]:
    with walked(browser, address, request.param) as page:
        yield page


def stands_in_the_first_screen(page: Page, chart: int) -> None:
    box = page.get_by_test_id("stVegaLiteChart").nth(chart).bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= WIDE["height"]


def months_stand_evenly(page: Page, chart: int) -> None:
    """The names of months below a chart are at even steps, but for the days of the months."""
    named = page.get_by_test_id("stVegaLiteChart").nth(chart).locator(".role-axis-label text")
    places = named.evaluate_all(
        """texts => texts.filter(t => /^([A-Z][a-z]{2}|[0-9]{4})$/.test(t.textContent))
                         .map(t => t.transform.baseVal[0].matrix.e)"""
    )
    steps = [later - sooner for sooner, later in pairwise(places)]
    assert len(steps) >= 2
    assert max(steps) < 1.25 * min(steps)


def test_the_household_goes_from_spring_to_the_glut_to_midwinter_and_every_screen_fits(
    page: Page,
) -> None:
    settle(page, PLACES["Spring: what to plant"])
    expect(page.get_by_text("Used up: ")).to_be_visible()
    fits(page)

    look_from(page, "Glut", "16 Aug 2027")
    go(page, "This week")
    expect(page.get_by_text("Week of 16 Aug 2027")).to_be_visible()
    expect(page.get_by_role("heading", name="Put up")).to_be_visible()
    fits(page)

    look_from(page, "Midwinter", "10 Jan 2028")
    go(page, "Winter: will it last")
    expect(page.get_by_text("First to give out")).to_be_visible()
    charts = page.get_by_test_id("stVegaLiteChart")
    expect(charts.first.locator("canvas, svg").first).to_be_visible()
    fits(page)
    months_stand_evenly(page, 0)
    months_stand_evenly(page, 1)
    if page.viewport_size == WIDE:
        expect(charts).to_have_count(2)  # the bars, the curve
        stands_in_the_first_screen(page, 1)


@pytest.mark.parametrize("page", [Screen(NARROW, "dark")], indirect=True, ids=["narrow dark"])
def test_a_phone_reaches_every_place_without_the_side_bar(page: Page) -> None:
    settle(page, PLACES["Spring: what to plant"])
    for place in (
        "Winter",
        "This week",
        "Larder",
        "Review",
        "Write down",
        "Preserving day",
        "Spring",
    ):
        link = page.get_by_test_id("stPageLink").filter(has_text=place).get_by_role("link")
        expect(link).to_be_visible()
        link.click()
        settle(page, next(title for name, title in PLACES.items() if name.startswith(place)))


@pytest.mark.parametrize("page", [Screen(WIDE, "light")], indirect=True, ids=["wide light"])
def test_a_household_of_us_units_fits_its_screens_too(page: Page) -> None:
    settle(page, PLACES["Spring: what to plant"])
    expect(page.locator(".st-key-ways")).to_have_count(0)
    page.get_by_test_id("stSidebar").get_by_test_id("stSelectbox").locator("input").click()
    page.get_by_role("option", name="Two Rivers").click()
    expect(page.get_by_text("Two Rivers, an invented household")).to_be_visible()
    settle(page, PLACES["Spring: what to plant"])
    fits(page)


@pytest.mark.parametrize("page", [Screen(NARROW, "light")], indirect=True, ids=["narrow light"])
def test_a_picking_is_logged_on_a_phone_in_three_taps_and_no_typing(
    page: Page,
) -> None:
    settle(page, PLACES["Spring: what to plant"])
    look_from(page, "Glut", "16 Aug 2027")
    page.get_by_test_id("stPageLink").filter(has_text="Write down").get_by_role("link").click()
    settle(page, PLACES["Write down"])
    main = page.get_by_test_id("stMain")

    taps = [
        main.get_by_text("bush bean", exact=True),
        main.get_by_text("2", exact=True),
        main.get_by_role("button", name=re.compile("^Save")),
    ]
    for tap in taps:
        expect(tap).to_be_enabled()
        box = tap.bounding_box()
        assert box is not None
        assert tap.evaluate("e => e.closest('button').getBoundingClientRect().height") >= 44
        tap.click()
        expect(page.get_by_test_id("stStatusWidget")).to_have_count(0, timeout=60_000)

    expect(main.get_by_text("Picked 2 kg of bush bean")).to_be_visible()
    fits(page)
    main.get_by_role("button", name="Undo").click()
    expect(main.get_by_text("Picked 2 kg of bush bean")).to_have_count(0)
