"""Set coachdesk up and start it: `python3 packaging/run.py demo`, or `tests`.

This one file keeps to a grammar that old Pythons read too (no annotations, no f-strings), so that
they get as far as saying what is needed. Everything else stands in the package `set_up` beside it.
"""

import importlib
import sys

OLDEST_PYTHON = (3, 11)

if sys.version_info < OLDEST_PYTHON:
    sys.exit(
        "coachdesk needs Python 3.11 or newer, and this is Python "
        + ".".join(map(str, sys.version_info[:3]))
        + ".\nA newer one comes with the system (Debian 12 or later: apt-get install python3"
        + " python3-venv) or from https://www.python.org/downloads/.\n"
        + "Then start again with it, for example: python3.11 packaging/run.py demo"
    )

if __name__ == "__main__":
    # Python leaves the script's folder out of the path where PYTHONSAFEPATH is set.
    sys.path.insert(0, str(importlib.import_module("pathlib").Path(__file__).resolve().parent))
    sys.exit(importlib.import_module("set_up.main").main(sys.argv[1:]))
