"""The domain stands alone."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

BLOCKED = """
import sys

class Blocker:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {"PySide6", "sqlalchemy", "alembic", "reportlab", "cattrs"}:
            raise ImportError(name + " is not to be had")

sys.meta_path.insert(0, Blocker())
import pytest

class Profile:
    def pytest_configure(self):
        from hypothesis import settings
        settings.register_profile("same_everywhere", deadline=None, derandomize=True)
        settings.load_profile("same_everywhere")

import os
import coachdesk.domain.engine
options = ["-c", os.devnull, "--rootdir", ".", "-W", "error", "--noconftest", "-q", "-x"]
options += ["--ignore-glob=*test_engine_*"]
plugins = ["-p", "no:cacheprovider", "-p", "no:pytest-qt", "-p", "no:benchmark"]
sys.exit(pytest.main(["tests/domain", *options, *plugins], plugins=[Profile()]))
"""


def test_domain_tests_run_where_neither_qt_nor_a_database_library_is_importable() -> None:
    ran = subprocess.run(
        [sys.executable, "-c", BLOCKED], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stdout[-3000:] + ran.stderr[-3000:]
