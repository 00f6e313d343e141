"""``process``: a tested canning process, or the reason why there is none."""

import argparse
import json
import sys

from model.commands.given import DONE, FAULTY, REFUSED
from model.errors import NoTestedProcess
from model.outlook.process_card import process_card
from model.safety.altitude import altitude_ft


def process(given: argparse.Namespace) -> int:
    """Print the process, or refuse with the ways that remain."""
    try:
        altitude = altitude_ft(given.altitude) if given.altitude else None
        card = process_card(given.product, given.method, given.pack, given.jar, altitude)
    except ValueError as error:
        print(error, file=sys.stderr)
        return FAULTY
    except NoTestedProcess as error:
        if given.json:
            refusal = {"refused": True, "reason": error.reason, "alternatives": list(error.ways)}
            print(json.dumps(refusal, indent=1))
        print(f"Refused: {error.reason}.", file=sys.stderr)
        for way in error.ways:
            print(f"  - {way}", file=sys.stderr)
        return REFUSED
    print(json.dumps(card.values(), indent=1) if given.json else card.text())
    return DONE
