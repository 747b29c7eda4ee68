"""The start of the desk with 200 athletes and five years of logs, beside an empty window of Qt's
own in the same run; reported, never gating.

Run with `pytest -n0 --benchmark-enable tests/bench/bench_start.py`.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 9


@pytest.mark.parametrize("stage", ["empty", "paint", "usable"])
def test_start(benchmark: BenchmarkFixture, data_file: Path, stage: str) -> None:
    """`empty` is the baseline: first paint is to take 2 times, a usable start 4 times as long."""
    probe = [sys.executable, "-m", "tests.bench.start_probe", stage, str(data_file)]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}

    def start() -> None:
        # No timeout: waiting with one looks every 50 ms only, which the figures then show.
        subprocess.run(probe, cwd=ROOT, env=environment, check=True)

    benchmark.pedantic(start, rounds=ROUNDS, warmup_rounds=1)  # type: ignore[no-untyped-call]
