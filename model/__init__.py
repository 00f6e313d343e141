"""A seasonal plan from the garden's harvest to the pantry's jars.

The names below are all that a dashboard or another program uses.
"""

from model.demand.hand_rule import HandRule
from model.errors import (
    NoPlan,
    NoTestedProcess,
    NotInTables,
    PlanningError,
    Problem,
    SeasonProblems,
)
from model.exchange.csv_out import csv_zip
from model.exchange.own_weather import OwnWeather, with_weather
from model.exchange.tasks_calendar import tasks_calendar
from model.exchange.upload import read_upload
from model.exchange.workbook import workbook
from model.intake.gate import read_season, season_from_zip
from model.outlook.food_table import food_table, lean_table, plate_table, present_food_table
from model.outlook.garden_table import harvest_table, planting_table, progress_table
from model.outlook.headings import HEADINGS
from model.outlook.kitchen_table import batch_table, limit_table, preserve_table, tight_limits
from model.outlook.process_card import ProcessCard, process_card
from model.outlook.report import plan_report
from model.outlook.shelf_table import food_stock_table, stock_table, supply_table
from model.outlook.task_table import TASKS, task_table
from model.outlook.ways_table import ways_table
from model.outlook.week_table import fresh_table, opening_table, week_table
from model.planning import PlannedSeason, plan_season
from model.planting.value import planting_value
from model.planting.ways import Interval
from model.questions.glut import GlutSplit, glut_table, split_glut
from model.questions.hedges import hedge_table
from model.questions.one_more import one_more_table
from model.questions.what_if import Change, changed_season, compare_foods, compare_jars
from model.reference.lookup import products
from model.reference.read import source_title
from model.safety.altitude import altitude_ft, boiling_point_c
from model.safety.methods import cautions_for
from model.safety.process_times import METHODS, process_lines, process_time
from model.season.season import Season
from model.season.settings import PLAN_FOR

__all__ = [
    "HEADINGS",
    "METHODS",
    "PLAN_FOR",
    "TASKS",
    "Change",
    "GlutSplit",
    "HandRule",
    "Interval",
    "NoPlan",
    "NoTestedProcess",
    "NotInTables",
    "OwnWeather",
    "PlannedSeason",
    "PlanningError",
    "Problem",
    "ProcessCard",
    "Season",
    "SeasonProblems",
    "altitude_ft",
    "batch_table",
    "boiling_point_c",
    "cautions_for",
    "changed_season",
    "compare_foods",
    "compare_jars",
    "csv_zip",
    "food_stock_table",
    "food_table",
    "fresh_table",
    "glut_table",
    "harvest_table",
    "hedge_table",
    "lean_table",
    "limit_table",
    "one_more_table",
    "opening_table",
    "plan_report",
    "plan_season",
    "planting_table",
    "planting_value",
    "plate_table",
    "present_food_table",
    "preserve_table",
    "process_card",
    "process_lines",
    "process_time",
    "products",
    "progress_table",
    "read_season",
    "read_upload",
    "season_from_zip",
    "source_title",
    "split_glut",
    "stock_table",
    "supply_table",
    "task_table",
    "tasks_calendar",
    "tight_limits",
    "ways_table",
    "week_table",
    "with_weather",
    "workbook",
]
