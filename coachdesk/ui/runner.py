"""The one way into a use case: at once, or in the background with progress and a way to stop.

Wherever it ran, its end is handled here and in the window's thread: what it changed is announced,
input that cannot be taken goes to its field, trouble is said in a sentence, and a bug is handed to
`sys.excepthook`, which the program replaces by one that keeps the work.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any, TypeAlias, TypeVar

from PySide6.QtCore import QObject, QRunnable, Qt, QThreadPool, Signal

from coachdesk.domain.errors import CoachdeskError, InvalidInput
from coachdesk.ui.change_signal import ChangeSignal
from coachdesk.ui.notices import Notices
from coachdesk.wording.wording import Wording

T = TypeVar("T")
Progress: TypeAlias = Callable[[int, int], None]
Refused: TypeAlias = Callable[[InvalidInput], object]


class Stopped(Exception):
    """The coach stopped it."""


class Runner(QObject):
    """Runs use cases for the screens."""

    def __init__(self, words: Wording, changed: ChangeSignal, notices: Notices) -> None:
        super().__init__()
        self._words = words
        self._changed = changed
        self._notices = notices
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._jobs: set[_Job] = set()

    def speak(self, words: Wording) -> None:
        """Say trouble in another language from now on."""
        self._words = words

    @property
    def is_busy(self) -> bool:
        """Whether something runs in the background that is not quiet."""
        return any(not job.quiet for job in self._jobs)

    def now(
        self,
        task: Callable[[], T],
        *,
        then: Callable[[T], object] | None = None,
        invalid: Refused | None = None,
    ) -> bool:
        """Run something quick; answers whether it was done.

        `then` is given what `task` answers. Input that cannot be taken goes to `invalid`, or is
        said like other trouble where there is none.
        """
        try:
            answer = task()
        except CoachdeskError as error:
            self._refuse(error, invalid)
            return False
        self._finish(answer, then)
        return True

    def background(
        self,
        task: Callable[[Progress], T],
        *,
        about: str,
        then: Callable[[T], object] | None = None,
        refused: Callable[[str], object] | None = None,
        stopped: Callable[[], object] | None = None,
        progress: Progress | None = None,
        can_stop: bool = True,
        quiet: bool = False,
    ) -> Callable[[], None]:
        """Run something slow in a thread; answers how to stop it.

        `task` is given a callback to tell its progress with, which raises `Stopped` once the coach
        has asked to stop: what was done until then stays. All callbacks come in the window's
        thread. What is `quiet` shows no progress, and the window may be closed over it: it is
        waited for. Trouble is said in the window's foot, or given to `refused` as a sentence.
        """
        job = _Job(task, quiet=quiet)
        self._jobs.add(job)
        report = job.report

        def ended(answer: object) -> None:
            self._end(job)
            self._finish(answer, then)

        def failed(error: BaseException) -> None:
            self._end(job)
            if isinstance(error, Stopped):
                self._notices.say(self._words("frame.stopped", what=about))
                if stopped is not None:
                    stopped()
            elif isinstance(error, CoachdeskError):
                (refused or self._notices.trouble)(self._words.say(error.text))
            else:
                sys.excepthook(type(error), error, error.__traceback__)

        queued = Qt.ConnectionType.QueuedConnection
        report.ended.connect(ended, queued)
        report.failed.connect(failed, queued)
        if not quiet:
            report.progressed.connect(self._notices.progress, queued)
            self._notices.under_way(about, job.stop if can_stop else None)
        if progress is not None:
            report.progressed.connect(progress, queued)
        self._pool.start(job)
        return job.stop

    def wait(self) -> None:
        """Wait for what runs in the background; its callbacks still come later."""
        self._pool.waitForDone()

    def _end(self, job: _Job) -> None:
        self._jobs.discard(job)
        if not job.quiet:
            self._notices.over()

    def _finish(self, answer: Any, then: Callable[[Any], object] | None) -> None:
        changes = getattr(answer, "changes", None)
        if isinstance(changes, frozenset):
            self._changed.announce(changes)
        if then is not None:
            then(answer)

    def _refuse(self, error: CoachdeskError, invalid: Refused | None) -> None:
        if isinstance(error, InvalidInput) and invalid is not None:
            invalid(error)
        else:
            self._notices.trouble(self._words.say(error.text))


class _Report(QObject):
    """Carries a job's news into the window's thread."""

    ended = Signal(object)
    failed = Signal(object)
    progressed = Signal(int, int)


class _Job(QRunnable):
    def __init__(self, task: Callable[[Progress], object], *, quiet: bool) -> None:
        super().__init__()
        self.setAutoDelete(False)
        self.quiet = quiet
        self.report = _Report()
        self._task = task
        self._is_stopped = False

    def stop(self) -> None:
        """Ask it to stop at its next step."""
        self._is_stopped = True

    def run(self) -> None:
        """Run in a thread of the pool."""
        try:
            answer = self._task(self._progress)
        except Exception as error:  # noqa: BLE001
            self.report.failed.emit(error)
        else:
            self.report.ended.emit(answer)

    def _progress(self, done: int, of: int) -> None:
        if self._is_stopped:
            raise Stopped
        self.report.progressed.emit(done, of)
