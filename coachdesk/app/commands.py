"""The commands and their options. What a command needs is loaded once it is chosen."""

from __future__ import annotations

import argparse
import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from pkgutil import resolve_name

from coachdesk import __version__
from coachdesk.wording.wording import Wording

PAPERS = ("a4", "letter")


def run(arguments: Sequence[str], words: Wording) -> int:
    """Run the command that `arguments` name; answers the exit code."""
    options = _parser(words).parse_args(arguments)
    with _short_lived():
        code: int = resolve_name(options.command)(options, words)
    return code


@contextmanager
def _short_lived() -> Iterator[None]:
    """A command ends soon: looking for garbage while it loads, on the way and at the end is an
    eighth of its time. The window, which stays, looks for garbage itself once it is open."""
    gc.disable()
    try:
        yield
    finally:
        if not gc.isenabled():
            gc.freeze()
            gc.enable()


def _parser(words: Wording) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="coachdesk", description=words("command.about"))
    parser.add_argument("--version", action="version", version=f"coachdesk {__version__}")
    parser.add_argument(
        "--data", type=Path, default=None, metavar="FILE", help=words("command.data")
    )
    parser.set_defaults(command="coachdesk.app.desk_commands:open_window")
    commands = parser.add_subparsers(metavar="COMMAND")

    demo = commands.add_parser("demo", help=words("command.demo"))
    demo.add_argument("--packets", type=Path, metavar="DIR", help=words("command.demo.packets"))
    demo.add_argument("--paper", choices=PAPERS, default="a4", help=words("command.paper"))
    demo.set_defaults(command="coachdesk.app.desk_commands:demo")

    packets = commands.add_parser("packets", help=words("command.packets"))
    packets.add_argument("--meet", required=True, metavar="NAME", help=words("command.meet"))
    packets.add_argument(
        "--out", type=Path, required=True, metavar="DIR", help=words("command.out")
    )
    packets.add_argument("--paper", choices=PAPERS, default="a4", help=words("command.paper"))
    packets.set_defaults(command="coachdesk.app.packet_commands:packets")

    training = commands.add_parser("training", help=words("command.training"))
    training.add_argument("--athlete", required=True, metavar="NAME", help=words("command.athlete"))
    training.add_argument("--week", metavar="N|DATE", help=words("command.week"))
    training.add_argument(
        "--out", type=Path, required=True, metavar="DIR", help=words("command.out")
    )
    training.add_argument("--paper", choices=PAPERS, default="a4", help=words("command.paper"))
    training.set_defaults(command="coachdesk.app.training_commands:training")

    record = commands.add_parser("record", help=words("command.record"))
    record.add_argument("--athlete", required=True, metavar="NAME", help=words("command.athlete"))
    record.add_argument(
        "--out", type=Path, required=True, metavar="FILE", help=words("command.record.out")
    )
    record.set_defaults(command="coachdesk.app.training_commands:record")

    check = commands.add_parser("check", help=words("command.check"))
    check.set_defaults(command="coachdesk.app.file_commands:check")

    backing_up = commands.add_parser("backup", help=words("command.backup"))
    backing_up.set_defaults(command="coachdesk.app.file_commands:back_up")

    restoring = commands.add_parser("restore", help=words("command.restore"))
    restoring.add_argument("backup", type=Path, metavar="BACKUP", help=words("command.restore.of"))
    restoring.set_defaults(command="coachdesk.app.file_commands:restore")
    return parser
