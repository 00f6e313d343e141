"""The planner without a browser: ``python -m model COMMAND``.

Exit codes: 0 done, 2 faults in the notes or in the command, 3 a jar is refused, 4 whoever
read the output stopped before its end.
"""

import argparse
import os
import sys
from collections.abc import Callable, Sequence

from model.commands import plan, process, questions
from model.commands.given import (
    DONE,
    FAULTY,
    UNREAD,
    add_json,
    add_season,
    add_seed,
    add_years,
    hours,
    kilograms,
)
from model.errors import PlanningError
from model.outlook.ways_table import WAYS_YEARS
from model.safety.process_times import METHODS, PACKS


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    parser = _parser()
    given = parser.parse_args(arguments)
    if not hasattr(given, "run"):
        parser.print_help()
        return DONE
    try:
        code: int = given.run(given)
        sys.stdout.flush()
    except PlanningError as error:
        print(error, file=sys.stderr)
        return FAULTY
    except BrokenPipeError:
        # What is still held back must not fail again when Python ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        print("the output was closed before its end", file=sys.stderr)
        return UNREAD
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m model",
        description="Plan a garden's harvest into the pantry's jars, and see how long they last.",
        epilog="Each command explains itself: python -m model plan --help. Ends with 0 when all "
        "is well, 2 for faults in the notes or the command, 3 for a refused jar, 4 when the "
        "output is closed before its end.",
    )
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    planning = _command(commands, "plan", "plan a season from the household's tables", plan.plan)
    add_years(planning)
    _command(commands, "check", "list every fault of a season's tables", plan.check, json=False)
    looking_up = commands.add_parser(
        "process", help="look up a tested canning process", description="Look up a tested process."
    )
    looking_up.set_defaults(run=process.process)
    looking_up.add_argument("--product", required=True, help="the tested product")
    looking_up.add_argument("--method", required=True, help="; ".join(METHODS))
    looking_up.add_argument("--pack", required=True, help=" or ".join(PACKS))
    looking_up.add_argument("--jar", required=True, help="pint, quart, 500 ml ...")
    looking_up.add_argument("--altitude", help='of the kitchen, such as "762 m" or "2500 ft"')
    add_json(looking_up)
    _add_questions(commands)
    return parser


def _add_questions(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    does = "hold the ways of choosing what to plant against each other"
    add_years(_command(commands, "ways", does, questions.ways), WAYS_YEARS)
    does = "say what one more hour, jar, lid, litre or plant would bring"
    add_seed(_command(commands, "more", does, questions.more))
    hedges = _command(commands, "hedges", "compare hedges against a bad year", questions.hedges)
    hedges.add_argument("--food", required=True, help="a food of the notes")
    add_seed(hedges)
    glut = _command(commands, "glut", "split a pile on the table", questions.glut)
    glut.add_argument(
        "--pile", type=kilograms, required=True, help='kilograms by crop: "tomato=20, pea=3"'
    )
    glut.add_argument(
        "--bruised", type=kilograms, default={}, help="of the pile, bruised or cut: as --pile"
    )
    glut.add_argument("--hours", type=hours, required=True, help="free in the kitchen for it")
    add_seed(glut)


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    does: str,
    run: Callable[[argparse.Namespace], int],
    *,
    json: bool = True,
) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=does, description=f"{does.capitalize()}.")
    command.set_defaults(run=run)
    add_season(command)
    if json:
        add_json(command)
    return command


if __name__ == "__main__":
    sys.exit(main())
