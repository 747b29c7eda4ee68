"""What stands in the virtual environment's folder, and where the set-up has to begin."""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import asdict, dataclass
from enum import IntEnum, StrEnum
from pathlib import Path

STAMP_NAME = "coachdesk-set-up.json"
DEVELOPERS = "dev"

# What `python -m venv`, its kin and installed packages put at the top of an environment.
_VENV_TOP = ("bin", "include", "lib", "lib64", "Scripts", "Include", "Lib", "pyvenv.cfg")
_BESIDE_IT = (".gitignore", ".lock", "CACHEDIR.TAG", "etc", "man", "share", "src")
_VENV_NAMES = frozenset((*_VENV_TOP, *_BESIDE_IT))


class Stage(StrEnum):
    """How far the set-up came."""

    MAKING = "making"
    INSTALLED = "installed"
    READY = "ready"


class Step(IntEnum):
    """The steps of the set-up, in order."""

    MAKE = 1
    INSTALL = 2
    CHECK = 3
    START = 4


@dataclass(frozen=True, slots=True)
class Stamp:
    """For what an environment was made, and how far that came.

    An editable installation and the scripts hold absolute paths: a moved `folder` spoils them.
    """

    python: str
    folder: str
    pyproject: str
    extra: str
    stage: Stage


@dataclass(frozen=True, slots=True)
class Found:
    """What stands in the environment's folder: names at its top, the stamp, and its Python."""

    names: frozenset[str] = frozenset()
    stamp: Stamp | None = None
    runs: bool = False
    too_old: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """The step to begin with, and why if it is not a matter of course."""

    first: Step
    reason: str = ""


def stamp_when_ready(*, root: Path, venv: Path, python: str, extra: str) -> Stamp:
    """Return the stamp of an environment that is ready for the checkout in `root`."""
    return Stamp(
        python=python,
        folder=os.pathsep.join((str(root), str(venv))),
        pyproject=hashlib.sha256((root / "pyproject.toml").read_bytes()).hexdigest(),
        extra=extra,
        stage=Stage.READY,
    )


def plan(found: Found, wanted: Stamp, *, fresh: bool) -> Plan:
    """Decide where to begin: at nothing, at the libraries, at the check, or at once."""
    if fresh or not found.names:
        return Plan(Step.MAKE)
    if spoilt := _why_spoilt(found, wanted):
        return Plan(Step.MAKE, f"{spoilt}, so it is made anew.")
    stamp = found.stamp
    if stamp is None:
        return Plan(Step.INSTALL, "It was not made by this set-up, and is taken as it is.")
    if stamp.pyproject != wanted.pyproject or stamp.extra not in (wanted.extra, DEVELOPERS):
        return Plan(Step.INSTALL, "Not all that coachdesk needs is there.")
    return Plan(Step.CHECK if stamp.stage is Stage.INSTALLED else Step.START)


def _why_spoilt(found: Found, wanted: Stamp) -> str:
    """Return why an environment cannot be used or mended, or nothing."""
    stamp = found.stamp
    if not found.runs or (stamp is None and STAMP_NAME in found.names):
        return "It is half-made or broken"
    if stamp is not None and stamp.stage is Stage.MAKING:
        return "The last set-up did not come to its end"
    if stamp is not None and (stamp.python, stamp.folder) != (wanted.python, wanted.folder):
        return "It was made for another Python or folder"
    return ""


def may_be_emptied(names: frozenset[str]) -> bool:
    """Return whether a folder with these names at its top is an environment, whole or not."""
    return STAMP_NAME in names or names <= _VENV_NAMES


def read_stamp(venv: Path) -> Stamp | None:
    """Return the stamp in an environment, or None if there is none that can be read."""
    try:
        fields = json.loads((venv / STAMP_NAME).read_text(encoding="utf-8"))
        return Stamp(**{**fields, "stage": Stage(fields["stage"])})
    except (FileNotFoundError, ValueError, TypeError, KeyError):
        return None


def write_stamp(venv: Path, stamp: Stamp) -> None:
    """Write the stamp into an environment."""
    (venv / STAMP_NAME).write_text(json.dumps(asdict(stamp), indent=1) + "\n", encoding="utf-8")
