"""The commands and their options."""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Sequence
from pathlib import Path

from coachdesk import __version__
from coachdesk.app import paths
from coachdesk.app.demo.club import seed
from coachdesk.app.print_meet import Printed, print_meet
from coachdesk.app.wiring import local_now, open_desk
from coachdesk.domain.errors import Trouble
from coachdesk.domain.meet import Meet
from coachdesk.domain.text import text
from coachdesk.services.desk import Desk
from coachdesk.services.meets import find_meet, upcoming_meets
from coachdesk.services.planning import plan_meet
from coachdesk.storage import backup, migrate
from coachdesk.wording.wording import Wording

PAPERS = ("a4", "letter")


def run(arguments: Sequence[str], words: Wording) -> int:
    """Run the command that `arguments` name; answers the exit code."""
    options = _parser(words).parse_args(arguments)
    code: int = options.command(options, words)
    return code


def _parser(words: Wording) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="coachdesk", description=words("command.about"))
    parser.add_argument("--version", action="version", version=f"coachdesk {__version__}")
    parser.add_argument(
        "--data", type=Path, default=None, metavar="FILE", help=words("command.data")
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    demo = commands.add_parser("demo", help=words("command.demo"))
    demo.add_argument(
        "--packets", type=Path, required=True, metavar="DIR", help=words("command.demo.packets")
    )
    demo.add_argument("--paper", choices=PAPERS, default="a4", help=words("command.paper"))
    demo.set_defaults(command=_demo)

    packets = commands.add_parser("packets", help=words("command.packets"))
    packets.add_argument("--meet", required=True, metavar="NAME", help=words("command.meet"))
    packets.add_argument(
        "--out", type=Path, required=True, metavar="DIR", help=words("command.out")
    )
    packets.add_argument("--paper", choices=PAPERS, default="a4", help=words("command.paper"))
    packets.set_defaults(command=_packets)

    check = commands.add_parser("check", help=words("command.check"))
    check.set_defaults(command=_check)

    backing_up = commands.add_parser("backup", help=words("command.backup"))
    backing_up.set_defaults(command=_back_up)

    restoring = commands.add_parser("restore", help=words("command.restore"))
    restoring.add_argument("backup", type=Path, metavar="BACKUP", help=words("command.restore.of"))
    restoring.set_defaults(command=_restore)
    return parser


def _demo(options: argparse.Namespace, words: Wording) -> int:
    """Fresh every time, in a folder of its own; the coach's data file is never touched."""
    club = paths.resources() / "demo" / "club.toml"
    with tempfile.TemporaryDirectory(prefix="coachdesk-demo-") as folder:
        desk = open_desk(Path(folder) / "demo.db")
        try:
            seed(desk, club.read_bytes(), club.name)
            code = 0
            for meet in upcoming_meets(desk):
                code |= _print(desk, meet, options.packets, options.paper, words)
        finally:
            desk.store.close()
    return code


def _packets(options: argparse.Namespace, words: Wording) -> int:
    desk = open_desk(_present_file(options))
    try:
        return _print(desk, find_meet(desk, options.meet), options.out, options.paper, words)
    finally:
        desk.store.close()


def _print(desk: Desk, meet: Meet, out: Path, paper: str, words: Wording) -> int:
    """Plan what has no plan yet, print, and say what came of it; 1 when something did not."""
    faults = plan_meet(desk, meet.id, only_missing=True).value
    printed: Printed = print_meet(desk, meet.id, out, paper, words)
    print(words("printed.done", count=len(printed.files), meet=meet.name, folder=str(out)))
    for fault in (*faults, *printed.failures):
        print(words.say(fault))
    return 1 if printed.failures else 0


def _check(options: argparse.Namespace, words: Wording) -> int:
    file = _present_file(options)
    open_desk(file).store.close()
    migrate.check(file)
    print(words("checked.sound", file=str(file)))
    return 0


def _back_up(options: argparse.Namespace, words: Wording) -> int:
    file = _present_file(options)
    open_desk(file).store.close()
    made = backup.back_up(file, paths.backups(file), local_now())
    print(words("backed_up.done", file=str(made)))
    return 0


def _restore(options: argparse.Namespace, words: Wording) -> int:
    file = _data_file(options)
    saved = backup.restore(options.backup, file, paths.backups(file), local_now())
    print(words("restored.done", file=str(file)))
    if saved is not None:
        print(words("restored.saved", file=str(saved)))
    return 0


def _data_file(options: argparse.Namespace) -> Path:
    file: Path | None = options.data
    return paths.data_file() if file is None else file


def _present_file(options: argparse.Namespace) -> Path:
    """The data file, which these commands read and so will not create."""
    file = _data_file(options)
    if not file.exists():
        raise Trouble(text("file.missing", file=str(file)))
    return file
