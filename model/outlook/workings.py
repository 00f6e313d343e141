"""The workings that can be asked for, family by family."""

from model.outlook.working import FROM_NOTES, FROM_SETTING, Source, Working
from model.outlook.working_garden import planting_workings
from model.outlook.working_kitchen import fullest_workings, week_workings
from model.outlook.working_lasting import lasting_workings
from model.outlook.working_learned import learned_working, seals_working
from model.outlook.working_next_year import book_workings, next_year_workings
from model.outlook.working_remedies import buy_in_working, ration_working
from model.outlook.working_sizes import sowing_size_working
from model.outlook.working_spoils import spoils_working
from model.outlook.working_stock import stock_workings

__all__ = [
    "FROM_NOTES",
    "FROM_SETTING",
    "Source",
    "Working",
    "book_workings",
    "buy_in_working",
    "fullest_workings",
    "lasting_workings",
    "learned_working",
    "next_year_workings",
    "planting_workings",
    "ration_working",
    "seals_working",
    "sowing_size_working",
    "spoils_working",
    "stock_workings",
    "week_workings",
]
