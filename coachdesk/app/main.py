"""The command `coachdesk`."""

from __future__ import annotations

import logging
import sys
from collections.abc import Sequence

from coachdesk.app import paths
from coachdesk.app.commands import run
from coachdesk.app.words import of_environment, spoken, wording
from coachdesk.domain.errors import CoachdeskError
from coachdesk.services.preferences import read_preferences

TROUBLE = 1
BUG = 70
INTERRUPTED = 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and answer its exit code.

    0 when all went well, 1 for expected trouble, 2 for words the command does not know, 70 for a
    bug (sysexits' EX_SOFTWARE), 130 when interrupted. It speaks the language preferred on the desk,
    else the environment's.
    """
    preferred = read_preferences(paths.preferences_file(paths.preferences_folder())).language
    words = wording(spoken(preferred, of_environment()))
    try:
        return run(sys.argv[1:] if arguments is None else arguments, words)
    except CoachdeskError as error:
        print(words.say(error.text), file=sys.stderr)
        return TROUBLE
    except KeyboardInterrupt:
        print(words("command.interrupted"), file=sys.stderr)
        return INTERRUPTED
    except Exception:
        logging.getLogger("coachdesk").exception("unexpected error")
        print(words("command.bug"), file=sys.stderr)
        return BUG
