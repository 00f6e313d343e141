"""A seasonal plan from the garden's harvest to the pantry's jars.

All that another program uses. In the examples ``season`` is Alder Lane's (invented), ``notes`` its
tables, read from ``folder``; ``planned`` its plan, ``small`` a smaller garden's; ``answers`` are a
new household's, ``store`` holds Alder Lane, ``place`` is empty. ``print(*table)`` shows columns.
"""

from model.demand.hand_rule import HandRule
from model.errors import (
    DamagedStore,
    NoPlan,
    NoTestedProcess,
    NotInTables,
    PlanningError,
    Problem,
    SeasonProblems,
    StoreError,
)
from model.exchange.csv_out import csv_zip
from model.exchange.own_weather import OwnWeather, with_weather
from model.exchange.tasks_calendar import tasks_calendar
from model.exchange.upload import read_upload
from model.exchange.workbook import workbook
from model.intake.first_answers import GUESS, FirstAnswers
from model.intake.first_notes import first_notes, guesses
from model.intake.folder import read_tables, table_headings
from model.intake.gate import read_season, season_from_tables
from model.intake.tables import SeasonTables
from model.outlook import workings
from model.outlook.arithmetic import about
from model.outlook.away_table import away_table
from model.outlook.buy_in_table import buy_in_table
from model.outlook.buy_list_table import buy_list_table
from model.outlook.checklist import Point, checklist
from model.outlook.concentration_table import concentration_table
from model.outlook.containers import container_kg
from model.outlook.curing_table import curing_table
from model.outlook.danger_table import danger_table
from model.outlook.day_product import (
    DayProduct,
    Refused,
    Wanted,
    day_products,
    put_up_on,
    wanted_today,
)
from model.outlook.day_sheet import DaySheet, Load, day_sheet
from model.outlook.day_table import day_table
from model.outlook.day_waiting import Waiting
from model.outlook.eat_first_table import CHILLED, KEEPS, LOOK, QUALITY, UNSEEN, eat_first_table
from model.outlook.food_table import food_table, lean_table, plate_table, present_food_table
from model.outlook.garden_table import harvest_table, planting_table, progress_table
from model.outlook.headings import HEADINGS
from model.outlook.in_hand_table import in_hand_table
from model.outlook.judgement_table import judgement_table
from model.outlook.kitchen_table import batch_table, limit_table, preserve_table, tight_limits
from model.outlook.label_text import Label, free_codes, label_for, label_of, labels_due
from model.outlook.learned_table import cause_table, fill_table, learned_table
from model.outlook.limits import TIGHT
from model.outlook.next_year_table import largest_changes, next_year_table
from model.outlook.own_units import US, from_own, in_own
from model.outlook.picked_table import picked_table
from model.outlook.process_card import ProcessCard, process_card
from model.outlook.product_table import PRODUCT_STATUSES, product_table
from model.outlook.ration_table import LEAST_LEVEL, ration_table
from model.outlook.report import plan_report
from model.outlook.resow_table import resow_table
from model.outlook.review_table import review_table
from model.outlook.set_out import SetOut, set_out
from model.outlook.shelf_table import food_stock_table, stock_table, supply_table
from model.outlook.short_months_table import short_months_table
from model.outlook.smaller_jar_table import smaller_jar_table
from model.outlook.sowing_size_table import sowing_size_table
from model.outlook.sowing_table import sowing_table
from model.outlook.stores_table import stores_table
from model.outlook.task_table import task_table
from model.outlook.totals_table import totals_table
from model.outlook.usual_picking import usual_picking
from model.outlook.ways_table import ways_table
from model.outlook.week_limit_table import week_limit_table
from model.outlook.week_table import fresh_table, opening_table, week_table
from model.planning import PlannedSeason, plan_season
from model.planting.value import planting_value
from model.planting.ways import Interval
from model.questions.glut import Glut, GlutSplit, glut_table
from model.questions.hedges import hedge_table
from model.questions.one_more import one_more_table
from model.questions.what_if import Change, changed_season, compare_foods, compare_jars
from model.reference.lookup import products
from model.reference.tongues import in_tongue
from model.safety.altitude import altitude_ft
from model.safety.methods import cautions_for
from model.safety.process_times import METHODS, process_lines, process_time, tested_product
from model.safety.seals import seal_hours, seal_times, seals_to_look_at, ways_for_unsealed
from model.safety.suspect import CELSIUS, FAHRENHEIT, discard_steps, may_be_frozen_again, thaw_steps
from model.season import household
from model.season.counting import makings_counted
from model.season.frosts import Frost
from model.season.garden import GardenSeason, Planting
from model.season.kitchen import Preserve
from model.season.ledger import Ledger, ledgers
from model.season.mates import batch_mates, to_look_at
from model.season.next_year import next_garden_year
from model.season.record import (
    CAUSES,
    EATEN,
    FREEZER_DIED,
    LOST,
    SUSPECT,
    VERDICTS,
    WENT,
    WHYS,
    Batch,
    Taken,
)
from model.season.season import Season
from model.season.settings import PLAN_FOR
from model.season.unseen_seals import unconfirmed, unseen_by_count
from model.season.weeks import YearDay
from model.season.write_off import write_off
from model.store.copies import bring_back, list_copies
from model.store.store import PLACE_VARIABLE, Store, StoredHousehold, usual_place
from model.store.versions import Author, Edit, Line

__all__ = [
    "CAUSES",
    "CELSIUS",
    "CHILLED",
    "EATEN",
    "FAHRENHEIT",
    "FREEZER_DIED",
    "GUESS",
    "HEADINGS",
    "KEEPS",
    "LEAST_LEVEL",
    "LOOK",
    "LOST",
    "METHODS",
    "PLACE_VARIABLE",
    "PLAN_FOR",
    "PRODUCT_STATUSES",
    "QUALITY",
    "SUSPECT",
    "TIGHT",
    "UNSEEN",
    "US",
    "VERDICTS",
    "WENT",
    "WHYS",
    "Author",
    "Batch",
    "Change",
    "DamagedStore",
    "DayProduct",
    "DaySheet",
    "Edit",
    "FirstAnswers",
    "Frost",
    "GardenSeason",
    "Glut",
    "GlutSplit",
    "HandRule",
    "Interval",
    "Label",
    "Ledger",
    "Line",
    "Load",
    "NoPlan",
    "NoTestedProcess",
    "NotInTables",
    "OwnWeather",
    "PlannedSeason",
    "PlanningError",
    "Planting",
    "Point",
    "Preserve",
    "Problem",
    "ProcessCard",
    "Refused",
    "Season",
    "SeasonProblems",
    "SeasonTables",
    "SetOut",
    "Store",
    "StoreError",
    "StoredHousehold",
    "Taken",
    "Waiting",
    "Wanted",
    "YearDay",
    "about",
    "altitude_ft",
    "away_table",
    "batch_mates",
    "batch_table",
    "bring_back",
    "buy_in_table",
    "buy_list_table",
    "cause_table",
    "cautions_for",
    "changed_season",
    "checklist",
    "compare_foods",
    "compare_jars",
    "concentration_table",
    "container_kg",
    "csv_zip",
    "curing_table",
    "danger_table",
    "day_products",
    "day_sheet",
    "day_table",
    "discard_steps",
    "eat_first_table",
    "fill_table",
    "first_notes",
    "food_stock_table",
    "food_table",
    "free_codes",
    "fresh_table",
    "from_own",
    "glut_table",
    "guesses",
    "harvest_table",
    "hedge_table",
    "household",
    "in_hand_table",
    "in_own",
    "in_tongue",
    "judgement_table",
    "label_for",
    "label_of",
    "labels_due",
    "largest_changes",
    "lean_table",
    "learned_table",
    "ledgers",
    "limit_table",
    "list_copies",
    "makings_counted",
    "may_be_frozen_again",
    "next_garden_year",
    "next_year_table",
    "one_more_table",
    "opening_table",
    "picked_table",
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
    "product_table",
    "products",
    "progress_table",
    "put_up_on",
    "ration_table",
    "read_season",
    "read_tables",
    "read_upload",
    "resow_table",
    "review_table",
    "seal_hours",
    "seal_times",
    "seals_to_look_at",
    "season_from_tables",
    "set_out",
    "short_months_table",
    "smaller_jar_table",
    "sowing_size_table",
    "sowing_table",
    "stock_table",
    "stores_table",
    "supply_table",
    "table_headings",
    "task_table",
    "tasks_calendar",
    "tested_product",
    "thaw_steps",
    "tight_limits",
    "to_look_at",
    "totals_table",
    "unconfirmed",
    "unseen_by_count",
    "usual_picking",
    "usual_place",
    "wanted_today",
    "ways_for_unsealed",
    "ways_table",
    "week_limit_table",
    "week_table",
    "with_weather",
    "workbook",
    "workings",
    "write_off",
]
