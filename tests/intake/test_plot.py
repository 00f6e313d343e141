"""What was noted on the plot and the shelf lies in time."""

from tests.intake.faulty import faults
from tests.small_season import TABLES


def test_pickings_and_stock_takes_after_every_season_are_told() -> None:
    told = faults(
        harvest_log="picked_on,crop,picked_kg\n2072-07-01,tomato,3\n",
        stock=TABLES["stock.csv"] + "2072-02-27,sauce,6,2026-09-01\n",
    )

    assert [(p.file, p.row) for p in told] == [("harvest_log.csv", 2), ("stock.csv", 4)]
    assert all("after every season" in p.found and "2027-12-31" in p.wanted for p in told)
