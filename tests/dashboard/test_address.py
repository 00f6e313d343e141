"""The page's address says household and day, so that a page that is loaded anew is the same."""

from datetime import date
from importlib.resources import files

import pytest
from playwright.sync_api import Browser, expect
from streamlit.testing.v1 import AppTest

from tests.dashboard.steps import look, use, words
from tests.dashboard.visiting import idle
from tests.dashboard.walking import BOTH, go, look_from, walked

GLUT = date(2027, 8, 16)


def anew(**said: str) -> AppTest:
    """Open the dashboard from an address."""
    page = AppTest.from_file(str(files("dashboard") / "app.py"), default_timeout=60)
    for name, value in said.items():
        page.query_params[name] = value
    return page.run()


def test_what_it_opens_with_by_itself_is_not_said(app: AppTest) -> None:
    assert not app.query_params


def test_another_household_and_day_are_opened_again_from_the_address(app: AppTest) -> None:
    look(app, "Alder Lane", GLUT, "views/larder.py")
    use(app, "Two Rivers")
    household = app.query_params["household"]
    use(app, "Alder Lane")

    assert app.query_params["day"] == "2027-08-16"
    assert "as of 16 Aug 2027" in words(anew(day="2027-08-16"))
    assert "Two Rivers, an invented household" in words(anew(household=household))


def test_a_day_past_the_end_of_the_notes_shows_their_last_and_says_so(app: AppTest) -> None:
    page = anew(day="2031-01-01")
    ends = next(one.value for one in page.caption if "as of" in one.value)

    assert page.toast[0].value.startswith("These notes end on ")
    assert page.toast[0].value.split(" on ")[1].split(":")[0] in ends


@pytest.mark.parametrize(
    "said",
    [
        {"household": "99999999999999999999", "day": "2027-03-15"},
        {"household": "<b>", "day": "16.8.2027"},
        {"day": "1066-10-14"},
        {"day": "9999-12-31", "household": ""},
    ],
)
def test_an_address_that_says_nonsense_opens_all_the_same(
    app: AppTest, said: dict[str, str]
) -> None:
    page = anew(**said)

    assert not page.exception
    assert not page.error
    assert "Alder Lane, an invented household" in words(page)


@pytest.mark.browser
def test_a_page_that_is_loaded_anew_on_a_phone_is_the_same_and_back_leads_back(
    browser: Browser, address: str
) -> None:
    with walked(browser, f"{address}/log", BOTH["narrow dark"]) as page:
        main = page.get_by_test_id("stMain")
        look_from(page, "Glut", "16 Aug 2027")
        go(page, "Larder: eat first")
        page.reload()
        expect(main.get_by_text("as of 16 Aug 2027")).to_be_visible()
        idle(page)
        for _ in range(4):
            page.go_back()
            idle(page)
            if page.url.split("?")[0].endswith("/log"):
                break
        assert page.url.split("?")[0].endswith("/log")
