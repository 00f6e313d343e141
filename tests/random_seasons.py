"""Random seasons for the laws: the tiny one with other ground, jars, hours, room and stock."""

from hypothesis import strategies as st

from model.season.season import Season
from tests.small_season import TABLES, season_of, small_tables


@st.composite
def season_texts(draw: st.DrawFn) -> dict[str, str]:
    """Give the tiny season's texts with other areas, jars, hours, room, stock and gifts."""
    beans, tomatoes = draw(st.integers(1, 16)), draw(st.integers(1, 20))
    quarts, pints = draw(st.integers(0, 60)), draw(st.integers(0, 40))
    stock = draw(st.integers(0, quarts)), draw(st.integers(0, 12))
    plantings = TABLES["plantings.csv"].replace(",8,", f",{beans},")
    freezer = draw(st.integers(20, 200))
    return small_tables(
        plantings=plantings.replace(",12\n", f",{tomatoes}\n"),
        beds="bed,area_m2\nonly bed,40\n",
        jars=(
            f"jar,volume_ml,owned,lids\nquart,946,{quarts},{draw(st.integers(0, 80))}\n"
            f"pint,473,{pints},{draw(st.integers(0, 60))}\npack,750,,\n"
        ),
        kitchen_hours=(
            f"begins,ends,hours_a_week\n,,{draw(st.integers(0, 12))}\n"
            f"2027-08-01,2027-08-20,{draw(st.integers(0, 20))}\n"
        ),
        places=(
            "place,kind,shelf_area_m2,tiers,volume_l,holds_kg\n"
            f"shelf,shelf,1,2,,\nfreezer,freezer,,,{freezer},\n"
        ),
        stock=(
            "counted_on,preserve,jars,put_up_on\n"
            f"2027-02-27,whole tomatoes,{stock[0]},2026-09-01\n"
            f"2027-02-27,frozen beans,{min(stock[1], freezer // 2)},2026-04-15\n"
        ),
        gifts=f"given_on,preserve,jars\n2027-12-20,whole tomatoes,{draw(st.integers(0, 6))}\n",
    )


def seasons() -> st.SearchStrategy[Season]:
    """Give such seasons, through the gate."""
    return season_texts().map(season_of)
