"""The set-up, without a network: what it decides and what it says.

The lines for an index that could not be reached, a distrusted certificate, a full disk, a read-only
folder and an old release are what pip 23.2, 24.2 and 26.3 and Python 3.11 printed on Linux, cut
short; those for missing rights, a compiler, a missing temporary folder and a Python without SQLite
are recalled.
"""

from __future__ import annotations

import ast
import errno
import importlib
import os
import runpy
import sys
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
ENTRY = ROOT / "packaging" / "run.py"

sys.path.append(str(ENTRY.parent))
libraries = importlib.import_module("set_up.libraries")
main = importlib.import_module("set_up.main")
stamp = importlib.import_module("set_up.stamp")
words = importlib.import_module("set_up.words")

RETRYING = (
    "WARNING: Retrying (Retry(total=4, connect=None, read=None, redirect=None, status=None)) after"
    " connection broken by 'NewConnectionError('<pip._vendor.urllib3.connection.HTTPConnection"
)
NO_MATCH = "ERROR: No matching distribution found for hatchling"
CAUSES = {
    "pip, refused": ("NETWORK", [RETRYING, NO_MATCH]),
    "pip, no retries": (
        "NETWORK",
        [
            "ERROR: Could not find a version that satisfies hatchling (from versions: none)",
            NO_MATCH,
        ],
    ),
    "pip, certificate": (
        "CERTIFICATE",
        [f"{RETRYING} SSLError(SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED]"],
    ),
    "pip, disk": (
        "DISK_FULL",
        [RETRYING, "    OSError: [Errno 28] No space left on device", "note: see above"],
    ),
    "ensurepip, disk": (
        "DISK_FULL",
        ["ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device"],
    ),
    "pip, no temporary folder": (
        "DISK_FULL",
        ["FileNotFoundError: [Errno 2] No usable temporary directory found in ['/tmp', '/x']"],
    ),
    "pip, rights": (
        "NOT_WRITABLE",
        ["ERROR: Could not install packages due to an OSError: [Errno 13] Permission denied: '/x'"],
    ),
    "venv, read-only": ("NOT_WRITABLE", ["Error: [Errno 30] Read-only file system: '/x/.venv'"]),
    "pip, old release": (
        "NO_VERSION",
        [
            "ERROR: Could not find a version that satisfies reportlab>=5.1 (from versions: 5.0.1)",
            "ERROR: No matching distribution found for reportlab[accel]>=5.1",
        ],
    ),
    "pip, compiler": ("NO_BUILD", ["error: command '/usr/bin/gcc' failed with exit code 1"]),
    "import, own build": (
        "PYTHON_INCOMPLETE",
        ["ModuleNotFoundError: No module named '_sqlite3'"],
    ),
    "something else": ("UNKNOWN", ["OSError: Readme file does not exist: README.md"]),
}


@pytest.mark.parametrize(("cause", "lines"), CAUSES.values(), ids=CAUSES)
def test_the_cause_is_read_from_what_pip_and_venv_print(cause: str, lines: list[str]) -> None:
    assert words.cause_of_output(lines)[0].name == cause


def test_a_release_for_newer_pythons_is_no_cause() -> None:
    link = "Link requires a different Python (3.11.7 not in: '>=3.12'): https://files.example/numpy"
    assert words.cause_of_output([link])[0] is words.Cause.UNKNOWN


@pytest.mark.parametrize(
    ("cause", "said"),
    [
        ("pip, refused", ["package index", "cannot be reached", "HTTPS_PROXY", "line again"]),
        ("pip, disk", ["disk is full", "300 MB", "/x/.venv", "--venv FOLDER"]),
        ("pip, rights", ["may not read or write", "/x/.venv", "--venv FOLDER"]),
        ("pip, certificate", ["certificate", "PIP_CERT"]),
        ("something else", ["last of what was said", "--fresh"]),
    ],
)
def test_a_failed_step_says_what_happened_and_what_to_do(cause: str, said: list[str]) -> None:
    places = words.Places(venv=Path("/x/.venv"), megabytes=300)
    message = str(words.failed_step("install the libraries", CAUSES[cause][1], places))
    assert "Could not install the libraries." in message
    assert [part for part in said if part not in message] == []


def test_only_the_last_lines_are_shown_and_the_telling_one() -> None:
    lines = [CAUSES["pip, disk"][1][1], *(f"line {number}" for number in range(100))]
    message = str(words.failed_step("go on", lines, words.Places(Path("/x"), 300)))
    assert "line 99\n" in message
    assert "No space left on device" in message
    assert "line 50\n" not in message


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (errno.ENOSPC, "disk is full"),
        (errno.EACCES, "may not read or write"),
        (errno.EROFS, "may not read or write"),
        (errno.ENOTDIR, "Put that right"),
    ],
)
def test_trouble_the_system_reports_gets_words(number: int, said: str) -> None:
    error = OSError(number, os.strerror(number), "/x/.venv")
    message = str(words.failed_write(error, words.Places(Path("/x/.venv"), 300)))
    assert said in message
    assert os.strerror(number) in message


def test_waiting_is_explained() -> None:
    assert "does not answer" in words.progress_note(RETRYING)
    assert "unpacking" in words.progress_note("Installing collected packages: tzdata, coachdesk")
    assert words.progress_note("Collecting numpy>=2.0") == ""


def test_the_entry_is_read_by_old_pythons() -> None:
    source = ENTRY.read_text(encoding="ascii")
    tree = ast.parse(source, feature_version=(3, 6))
    newer = (ast.JoinedStr, ast.AnnAssign, ast.FunctionDef, ast.NamedExpr, ast.ImportFrom)
    assert not [node for node in ast.walk(tree) if isinstance(node, newer)]


def test_an_old_python_is_told_what_is_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 6, 15))
    with pytest.raises(SystemExit) as stopped:
        runpy.run_path(str(ENTRY), run_name="__main__")
    assert "needs Python 3.11 or newer, and this is Python 3.6.15." in str(stopped.value.code)


def test_the_entry_asks_for_the_python_the_project_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    oldest = runpy.run_path(str(ENTRY), run_name="not_main")["OLDEST_PYTHON"]
    assert project["requires-python"] == ">=" + ".".join(map(str, oldest))


def test_debian_hears_which_package_brings_ensurepip() -> None:
    # Debian splits ensurepip off into python3.X-venv (policy of its python3 packages).
    message = str(words.missing_modules(["ensurepip"], minor=13, has_apt=True))
    assert "module ensurepip" in message
    assert "sudo apt-get install -y python3.13-venv" in message
    assert "apt-get" not in str(words.missing_modules(["ensurepip"], minor=13, has_apt=False))


def _ready(tmp_path: Path, extra: str = "dev") -> Any:
    (tmp_path / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    return stamp.stamp_when_ready(
        root=tmp_path, venv=tmp_path / "venv", python="CPython 3.11.2 /usr", extra=extra
    )


def _found(standing: Any) -> Any:
    return stamp.Found(frozenset({"bin", stamp.STAMP_NAME}), standing, runs=True)


def test_nothing_is_done_twice(tmp_path: Path) -> None:
    ready = _ready(tmp_path)
    assert stamp.plan(_found(ready), ready, fresh=False) == stamp.Plan(stamp.Step.START)
    assert stamp.plan(_found(ready), ready, fresh=True).first is stamp.Step.MAKE


def test_what_the_tests_need_covers_the_demo_but_not_the_other_way(tmp_path: Path) -> None:
    tests, demo = _ready(tmp_path), _ready(tmp_path, extra="")
    assert stamp.plan(_found(tests), demo, fresh=False).first is stamp.Step.START
    assert stamp.plan(_found(demo), tests, fresh=False).first is stamp.Step.INSTALL


def test_changed_dependencies_are_installed(tmp_path: Path) -> None:
    before = _ready(tmp_path)
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'x'\n", encoding="utf-8")
    now = stamp.stamp_when_ready(
        root=tmp_path, venv=tmp_path / "venv", python=before.python, extra="dev"
    )
    assert stamp.plan(_found(before), now, fresh=False).first is stamp.Step.INSTALL


@pytest.mark.parametrize("change", [{"python": "CPython 3.12.1 /usr"}, {"folder": "/moved"}])
def test_another_python_or_a_moved_folder_needs_a_new_environment(
    tmp_path: Path, change: dict[str, str]
) -> None:
    ready = _ready(tmp_path)
    assert stamp.plan(_found(ready), replace(ready, **change), fresh=False).first is stamp.Step.MAKE


def test_a_half_made_environment_is_made_anew(tmp_path: Path) -> None:
    ready = _ready(tmp_path)
    unfinished = replace(ready, stage=stamp.Stage.MAKING)
    python_gone = replace(_found(ready), runs=False)
    unreadable = replace(_found(ready), stamp=None)
    by_hand = stamp.Found(frozenset({"bin", "pyvenv.cfg"}), None, runs=False)
    for found in (_found(unfinished), python_gone, unreadable, by_hand):
        decided = stamp.plan(found, ready, fresh=False)
        assert decided.first is stamp.Step.MAKE
        assert decided.reason


def test_a_check_that_failed_is_all_that_is_done_again(tmp_path: Path) -> None:
    ready = _ready(tmp_path)
    installed = replace(ready, stage=stamp.Stage.INSTALLED)
    assert stamp.plan(_found(installed), ready, fresh=False).first is stamp.Step.CHECK


def test_a_working_environment_made_by_hand_is_used(tmp_path: Path) -> None:
    by_hand = stamp.Found(frozenset({"bin", "lib", "pyvenv.cfg"}), None, runs=True)
    assert stamp.plan(by_hand, _ready(tmp_path), fresh=False).first is stamp.Step.INSTALL


def test_a_stamp_reads_back_and_a_torn_one_does_not(tmp_path: Path) -> None:
    ready = _ready(tmp_path)
    assert stamp.read_stamp(tmp_path) is None
    stamp.write_stamp(tmp_path, ready)
    assert stamp.read_stamp(tmp_path) == ready
    whole = (tmp_path / stamp.STAMP_NAME).read_text(encoding="utf-8")
    for torn in ("", whole[:40], "[]", "{}", whole.replace('"extra"', '"extras"')):
        (tmp_path / stamp.STAMP_NAME).write_text(torn, encoding="utf-8")
        assert stamp.read_stamp(tmp_path) is None


def test_a_failed_import_names_its_library() -> None:
    # As glibc's loader words it.
    said = "ImportError: libGL.so.1: cannot open shared object file: No such file or directory"
    assert libraries.named_library(["Traceback:", said]) == "libGL.so.1"
    assert libraries.named_library(["ModuleNotFoundError: No module named 'numpy'"]) == ""


def test_neighbours_of_a_missing_library_are_installed_with_it() -> None:
    present = {"libEGL.so.1", "libdbus-1.so.3"}
    packages = libraries.packages_for("libGL.so.1", loads=present.__contains__)
    assert {"libgl1", "libxkbcommon0", "libxcb-cursor0"} <= set(packages)
    assert not {"libegl1", "libdbus-1-3", "libgomp1"} & set(packages)
    assert libraries.packages_for("libunheard.so.3") == ()


def test_the_exact_line_is_given_where_the_set_up_may_not_install() -> None:
    said = libraries.advice("libgomp.so.1", ["libgomp1"], has_apt=True)
    assert (
        "    sudo apt-get update"
        " && sudo apt-get install -y --no-install-recommends libgomp1\n" in said
    )
    assert "apt-file search libodd.so.1" in libraries.advice("libodd.so.1", [], has_apt=True)
    elsewhere = libraries.advice("libgomp.so.1", ["libgomp1"], has_apt=False)
    assert "libgomp.so.1" in elsewhere
    assert "apt" not in elsewhere


def test_a_library_nobody_has_does_not_load() -> None:
    assert not libraries.loads("libcoachdesk-unheard.so.99")


def test_whatever_follows_the_command_is_passed_on_in_order() -> None:
    more = ["tests/app", "-k", "a and not b", "--cov", "--cov-fail-under=95", "-x"]
    request = main.parse(["--fresh", "tests", *more])
    assert request.passed_on == tuple(more)
    assert request.fresh
    assert request.extra == "dev"
    assert main.parse(["tests", "-k", "foo", "--fresh"]) == replace(
        request, passed_on=("-k", "foo")
    )


def test_the_environment_can_be_chosen(tmp_path: Path) -> None:
    assert main.parse(["demo"]).venv == ROOT / ".venv"
    assert main.parse(["demo"], chosen_venv=str(tmp_path)).venv == tmp_path.resolve()
    chosen = main.parse(["--venv", str(tmp_path / "a"), "demo"], chosen_venv=str(tmp_path / "b"))
    assert chosen.venv == tmp_path.resolve() / "a"


def test_the_packets_go_where_they_are_wanted() -> None:
    usual = Path("/checkout/out/demo-packets")
    assert main.demo_arguments(["--paper", "a4"], usual, has_display=True) == (
        ("--paper", "a4"),
        None,
    )
    assert main.demo_arguments(["--paper", "a4"], usual, has_display=False) == (
        ("--packets", str(usual), "--paper", "a4"),
        usual,
    )
    for given in (["--packets", "mine"], ["--packets=mine"]):
        for shown in (True, False):
            assert main.demo_arguments(given, usual, has_display=shown) == (
                tuple(given),
                Path("mine"),
            )
