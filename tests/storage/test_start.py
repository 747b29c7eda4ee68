"""What a start costs: an up-to-date file is opened without the libraries that it does not need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from coachdesk.app.wiring import open_desk

ROOT = Path(__file__).parents[2]
OPEN = """
import sys
from pathlib import Path
import coachdesk.app.main
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete

with open_desk(Path(sys.argv[1])).reading() as reader:
    reader.list(Athlete)
print(*sys.modules, sep="\\n")
"""


def test_an_up_to_date_file_opens_without_object_mapping_and_without_migrations(
    tmp_path: Path,
) -> None:
    file = tmp_path / "coachdesk.db"
    open_desk(file).store.close()
    ran = subprocess.run(
        [sys.executable, "-c", OPEN, file], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
    loaded = set(ran.stdout.split())
    assert "sqlalchemy.engine" in loaded
    assert loaded.isdisjoint({"sqlalchemy.orm", "alembic"})
