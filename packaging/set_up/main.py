"""The set-up from start to finish: arguments, steps, and what is started at the end."""

from __future__ import annotations

import argparse
import importlib
import os
import platform
import shutil
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from . import libraries, stamp, words
from .children import Outcome, run_openly, run_quietly
from .stamp import Stage, Stamp, Step
from .words import SetUpError

ROOT = Path(__file__).resolve().parents[2]
INTERRUPTED = 130
TOO_OLD = 3
TRIAL = f"import sys; sys.version_info >= (3, 11) or sys.exit({TOO_OLD}); import pip"
ROOM_MB = {"": 900, stamp.DEVELOPERS: 1600}
LOADED = (
    "sqlite3", "sqlalchemy", "alembic", "reportlab.pdfgen.canvas", "PIL.Image", "numpy",
    "icalendar", "PySide6.QtWidgets",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Request:
    """What was asked for on the command line."""

    command: str
    venv: Path
    fresh: bool
    passed_on: tuple[str, ...]

    @property
    def extra(self) -> str:
        """The optional dependencies to install."""
        return stamp.DEVELOPERS if self.command == "tests" else ""


def main(arguments: Sequence[str]) -> int:
    """Set up, start what was asked for, and return the exit code."""
    request = parse(arguments, chosen_venv=os.environ.get("COACHDESK_VENV", ""))
    try:
        set_up(request)
        return start(request)
    except SetUpError as error:
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped. The same line goes on from here.", file=sys.stderr)
        return INTERRUPTED


def parse(arguments: Sequence[str], *, chosen_venv: str = "") -> Request:
    """Read the command line; what is not meant for the set-up is passed on in its order."""
    parser = argparse.ArgumentParser(
        prog="packaging/run.py",
        description="Set coachdesk up in a virtual environment, then start what is asked for.",
        epilog="Whatever else follows the command is passed on to it, for example: tests -k bar",
        allow_abbrev=False,
    )
    parser.add_argument("--venv", metavar="FOLDER", help="the virtual environment (else .venv)")
    parser.add_argument("--fresh", action="store_true", help="make the environment anew")
    parser.add_argument(
        "command",
        choices=("demo", "tests"),
        help="demo: open the desk of an invented club, or print its packets where there is no "
        "display; tests: run the tests",
    )
    known, passed_on = parser.parse_known_args(arguments)
    venv = Path(known.venv or chosen_venv or ROOT / ".venv").expanduser().resolve()
    return Request(known.command, venv, known.fresh, tuple(passed_on))


def set_up(request: Request) -> None:
    """Bring the environment to where it is ready, from wherever it stands."""
    try:
        _set_up(request)
    except OSError as error:
        raise words.failed_write(error, _places(request)) from error


def _set_up(request: Request) -> None:
    wanted = wanted_stamp(request)
    found = look_into(request.venv)
    if found.too_old and not request.fresh:
        raise words.too_old(request.venv)
    plan = stamp.plan(found, wanted, fresh=request.fresh)
    if plan.first is Step.START:
        _say(f"coachdesk is set up in {request.venv}.")
        return
    _say(f"Setting up coachdesk in {request.venv} with Python {platform.python_version()}.")
    if plan.reason:
        _say(f"  {plan.reason}")
    if plan.first <= Step.MAKE:
        make(request, found.names, replace(wanted, stage=Stage.MAKING))
    if plan.first <= Step.INSTALL:
        install(request, wanted)
    _say("3 of 3: checking that the libraries load")
    check(request)
    stamp.write_stamp(request.venv, wanted)


def wanted_stamp(request: Request) -> Stamp:
    """Return the stamp of an environment that is ready for what was asked for."""
    python = f"{platform.python_implementation()} {platform.python_version()} {sys.base_prefix}"
    return stamp.stamp_when_ready(root=ROOT, venv=request.venv, python=python, extra=request.extra)


def look_into(venv: Path) -> stamp.Found:
    """Return what stands in the environment's folder; only a stranger's is tried out."""
    if not venv.exists():
        return stamp.Found()
    names = frozenset(child.name for child in venv.iterdir())
    runs = venv_python(venv).exists()
    if stamp.STAMP_NAME in names or not runs:
        return stamp.Found(names, stamp.read_stamp(venv), runs)
    code = run_quietly([venv_python(venv), "-c", TRIAL]).code
    return stamp.Found(names, runs=code == 0, too_old=code == TOO_OLD)


def make(request: Request, names: frozenset[str], unfinished: Stamp) -> None:
    """Make the virtual environment anew, with pip in it."""
    if not stamp.may_be_emptied(names):
        raise words.not_ours(request.venv)
    lacking = [name for name in ("venv", "ensurepip") if not _imports(name)]
    if lacking:
        minor = sys.version_info.minor
        raise words.missing_modules(lacking, minor=minor, has_apt=libraries.has_apt())
    _say("1 of 3: making a virtual environment")
    _empty(request.venv)
    stamp.write_stamp(request.venv, unfinished)
    # Inside an environment, its own Python would be emptied away below its feet.
    base_python = getattr(sys, "_base_executable", sys.executable)
    # In two steps, for `venv` keeps to itself what goes wrong within ensurepip.
    for command in (
        (base_python, "-m", "venv", "--without-pip", request.venv),
        (venv_python(request.venv), "-I", "-m", "ensurepip", "--upgrade", "--default-pip"),
    ):
        _expect_success(run_quietly(command), "make the virtual environment", request)


def install(request: Request, wanted: Stamp) -> None:
    """Install coachdesk, editable, and what it needs."""
    _say("2 of 3: installing the libraries (some minutes the first time)")
    stamp.write_stamp(request.venv, replace(wanted, stage=Stage.MAKING))
    project = f".[{request.extra}]" if request.extra else "."
    pip = (venv_python(request.venv), "-m", "pip", "--no-input", "--disable-pip-version-check")
    # --verbose lets the lines of pip's own helpers through, so that waiting can be explained.
    command = (*pip, "install", "--verbose", "--editable", project)
    outcome = run_quietly(command, cwd=ROOT, on_line=_Notes())
    _expect_success(outcome, "install the libraries", request)
    stamp.write_stamp(request.venv, replace(wanted, stage=Stage.INSTALLED))


def check(request: Request) -> None:
    """Load the libraries, and install what they miss of the system where that is allowed."""
    tried: set[str] = set()
    while True:
        outcome = run_quietly([venv_python(request.venv), "-c", f"import {', '.join(LOADED)}"])
        library = libraries.named_library(outcome.lines)
        if outcome.code == 0 and libraries.has_display():
            library = libraries.missing_for_a_window()
        if not library:
            _expect_success(outcome, "load the libraries", request)
            return
        packages = libraries.packages_for(library)
        has_apt = libraries.has_apt()
        if not (packages and has_apt and libraries.is_root()) or library in tried:
            raise SetUpError(libraries.advice(library, packages, has_apt=has_apt))
        tried.add(library)
        _say(f"  {library} is missing: installing {', '.join(packages)} with apt-get")
        for command in libraries.apt_commands(packages):
            said = run_quietly(command)
            if said.code != 0:
                line_to_type = libraries.advice(library, packages, has_apt=has_apt)
                raise SetUpError(words.last_lines(said.lines) + line_to_type)


def start(request: Request) -> int:
    """Start what was asked for and return its exit code."""
    python = venv_python(request.venv)
    if request.command == "tests":
        return run_openly([python, "-m", "pytest", *request.passed_on], cwd=ROOT)
    passed_on, packets = demo_arguments(
        request.passed_on, ROOT / "out" / "demo-packets", has_display=libraries.has_display()
    )
    code = run_openly([python, "-m", "coachdesk", "demo", *passed_on])
    if code == 0 and packets is not None:
        _say(f"The packets are in {packets.resolve()}")
    return code


def demo_arguments(
    passed_on: Sequence[str], folder: Path, *, has_display: bool
) -> tuple[tuple[str, ...], Path | None]:
    """Return the demo's arguments and its folder of packets: none where it opens in a window.

    Without a display the packets go to `folder` unless another is named.
    """
    parser = argparse.ArgumentParser(add_help=False, allow_abbrev=False)
    parser.add_argument("--packets", type=Path)
    named: Path | None = parser.parse_known_args(passed_on)[0].packets
    if named is not None:
        return tuple(passed_on), named
    if has_display:
        return tuple(passed_on), None
    return ("--packets", str(folder), *passed_on), folder


def venv_python(venv: Path) -> Path:
    """Return the interpreter of an environment."""
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _places(request: Request) -> words.Places:
    return words.Places(venv=request.venv, megabytes=ROOM_MB[request.extra])


class _Notes:
    """Says what pip is at, each thing once."""

    def __init__(self) -> None:
        self._said = {""}

    def __call__(self, line: str) -> None:
        note = words.progress_note(line)
        if note not in self._said:
            self._said.add(note)
            _say(f"  {note}")


def _expect_success(outcome: Outcome, what: str, request: Request) -> None:
    if outcome.code != 0:
        raise words.failed_step(what, outcome.lines, _places(request))


def _imports(name: str) -> bool:
    try:
        importlib.import_module(name)
    except ImportError:
        return False
    return True


def _empty(folder: Path) -> None:
    """Leave an empty folder: it may be a mount point, so it stays itself."""
    folder.mkdir(parents=True, exist_ok=True)
    for child in folder.iterdir():
        if child.is_dir() and not child.is_symlink():
            shutil.rmtree(child)
        else:
            child.unlink()


def _say(line: str) -> None:
    print(line, flush=True)
