"""Fits the attempt engine to recorded meet days, and shows how well it then foretells others.

Run from the root, in the environment of the project: `python -m tests.bench.fit_attempts DATA`,
with DATA a file of recorded days as `fitting.recorded_days` describes it (a row for each day; the
figures in the program come from 58,708 days of 24,000 lifters drawn from the OpenPowerlifting
results data, public domain, snapshot of 2024-08-23). One core, about a minute, the same every time.

Lifters of even number are fitted on, those of odd number kept out (`--swap`: the other way round).
nu is assumed (`--nu` tries another).
First each lift is fitted by itself; how sure a miss rate is within a lift of one day agrees between
the lifts, so their mean, weighed by what each knows, is held fast in a second fit. Prints Markdown:
the fitted figures with standard errors, what no model is needed for, the day's noise, and the
calibration on the lifters kept out. `--write` renews the three files in `tests/data` that
`tests/domain/test_engine_calibration.py` recomputes it from; the miss rates go into
`coachdesk/domain/engine_parameters.py` by hand.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np

from coachdesk.domain.engine_parameters import DEFAULT, Parameters
from coachdesk.domain.lifting import Lift
from tests.bench.fitting.between_days import misses, noise
from tests.bench.fitting.calibration import (
    Compared,
    by_jump,
    cell_averages,
    cells,
    deciles,
    log_loss,
)
from tests.bench.fitting.choices import CHOICES, Model
from tests.bench.fitting.files import AVERAGES, CELLS, write_choices, write_counts
from tests.bench.fitting.floors import missed_by_far_stronger, missed_then_made
from tests.bench.fitting.recorded_days import (
    EQUIPMENT,
    EXPERIENCES,
    Days,
    Floats,
    Lines,
    count_lines,
    halves,
    read_days,
)
from tests.bench.fitting.scoring import FIGURES, Fit, fit

_GROUPS = tuple(np.ndindex(len(EXPERIENCES), len(EQUIPMENT)))
_PAIRS = "squat and bench press, squat and deadlift, bench press and deadlift"


def fit_all(
    lines: Mapping[Lift, Lines], parameters: Parameters = DEFAULT
) -> tuple[Mapping[Lift, Fit], Mapping[Lift, Fit]]:
    """The fits of each lift by itself, and with what the lifts agree on held fast."""
    models = {lift: Model(counted, parameters) for lift, counted in lines.items()}
    alone = {lift: fit(model) for lift, model in models.items()}
    known = np.array([one.errors.attempts**-2 for one in alone.values()])
    agreed = float(known @ [one.figures.attempts for one in alone.values()] / known.sum())
    return alone, {lift: fit(model, round(agreed, 1)) for lift, model in models.items()}


def predict(
    fits: Mapping[Lift, Fit], lines: Mapping[Lift, Lines], parameters: Parameters = DEFAULT
) -> Mapping[Lift, Floats]:
    """The chances on the lines of each lift."""
    return {
        lift: Model(counted, parameters).predict(
            fits[lift].figures.choices, fits[lift].figures.miss_rates
        )
        for lift, counted in lines.items()
    }


def report(
    days: Days,
    alone: Mapping[Lift, Fit],
    fits: Mapping[Lift, Fit],
    lines: Mapping[Lift, Lines],
    out: Mapping[Lift, Lines],
    predicted: Mapping[Lift, Floats],
) -> Iterator[str]:
    """Everything, in Markdown.

    `days` and `lines` are those fitted on, `out` those kept out, with their chances `predicted`.
    """
    yield from _figures(days, alone, fits)
    yield from _between(days)
    yield from _losses(lines, out, predicted)
    yield from _cells(out, predicted)
    yield from _reliability(out, predicted)


def _figures(days: Days, alone: Mapping[Lift, Fit], fits: Mapping[Lift, Fit]) -> Iterator[str]:
    worth = [f"{one.figures.attempts:.1f} ± {one.errors.attempts:.1f}" for one in alone.values()]
    held = next(iter(fits.values())).figures.attempts
    yield f"{len(fits) * (FIGURES - 1) + 1} figures are fitted. "
    likely = ", ".join(f"{one.log_likelihood:.1f}" for one in fits.values())
    yield f"Log likelihood: {likely}."
    yield f"Attempts' worth within a lift of a day: {', '.join(worth)}; held at {held:.1f}."
    yield from _head("lift", "meets", "equipment", "t, %", "missed, later made", "8-15 % stronger")
    for at, (lift, one) in enumerate(fits.items()):
        floors = missed_then_made(days, at), missed_by_far_stronger(days, at)
        for group in _GROUPS:
            rate, error = one.figures.rates[group], one.errors.rates[group]
            least, far = (f"{100 * floor[group]:.1f}" for floor in floors)
            fitted = f"{100 * rate:.1f} ± {100 * error:.1f}"
            who = EXPERIENCES[group[0]], EQUIPMENT[group[1]]
            yield _row(lift, *who, fitted, least, far)
    yield from _head("what choices reveal", *fits)
    for name in CHOICES:
        pairs = [(one.figures.choices, one.errors.choices) for one in fits.values()]
        yield _row(name, *(f"{getattr(f, name):.4f} ± {getattr(e, name):.4f}" for f, e in pairs))


def _between(days: Days) -> Iterator[str]:
    yield from _head(
        "equipment", "meets", "noise of the lifts, %", "of the total", "r from these",
        f"r of {_PAIRS}", "missed openers, next meet", "other lift that day",
    )  # fmt: skip
    for at, equipment in enumerate(EQUIPMENT):
        day, missed = noise(days, at), misses(days, at)
        yield _row(
            equipment,
            day.meets,
            _list(100 * day.lifts),
            f"{100 * day.total:.2f}",
            f"{day.shared:.2f}",
            _list(day.together),
            _list(missed.next_meet, 3),
            _list(missed.same_day, 3),
        )


def _losses(
    lines: Mapping[Lift, Lines], out: Mapping[Lift, Lines], predicted: Mapping[Lift, Floats]
) -> Iterator[str]:
    yield from _head("log loss kept out", "model", "cell averages of the fit", "their own averages")
    for lift, counted in out.items():
        tables = cell_averages(counted, lines[lift]), cell_averages(counted, counted)
        losses = [log_loss(counted, each) for each in (predicted[lift], *tables)]
        yield _row(lift, *(f"{loss:.4f}" for loss in losses))


def _cells(out: Mapping[Lift, Lines], predicted: Mapping[Lift, Floats]) -> Iterator[str]:
    found = [
        (lift, cell, compared)
        for lift, counted in out.items()
        for cell, compared in cells(counted, predicted[lift])
    ]
    off = [each for each in found if not each[2].holds]
    yield ""
    yield f"{len(found)} cells, {len(off)} further off than they may be (*)."
    yield from _head("lift", "attempt", "before", "equipment", *EXPERIENCES)
    rows: dict[tuple[object, ...], list[str]] = {}
    for lift, cell, compared in found:
        before = {None: "any", True: "good", False: "missed"}[cell.before]
        who: tuple[object, ...] = (lift, cell.attempt, before, cell.equipment)
        rows.setdefault(who, []).append(_shown(compared))
    for key, shown in rows.items():
        yield _row(*key, *shown)


def _shown(compared: Compared) -> str:
    mark = "" if compared.holds else " *"
    return f"{100 * compared.made:.1f} {100 * compared.off:+.1f} ({compared.count}){mark}"


def _reliability(out: Mapping[Lift, Lines], predicted: Mapping[Lift, Floats]) -> Iterator[str]:
    yield from _head("decile: predicted / made, %", *(str(at) for at in range(1, 11)))
    for lift, counted in out.items():
        yield _row(lift, *(_pair(each) for each in deciles(counted, predicted[lift])))
    yield from _head("jump: predicted / made, % (attempts)", "attempt", *out)
    for attempt in (2, 3):
        columns = [dict(by_jump(out[lift], predicted[lift], attempt)) for lift in out]
        for name in columns[0]:
            shown = [f"{_pair(column[name])} ({column[name].count})" for column in columns]
            yield _row(name, attempt, *shown)


def _pair(compared: Compared) -> str:
    return f"{100 * compared.predicted:.1f} / {100 * compared.made:.1f}"


def _list(values: Floats, digits: int = 2) -> str:
    return ", ".join(f"{value:.{digits}f}" for value in values)


def _head(*names: object) -> Iterable[str]:
    return ("", _row(*names), "|" + "---|" * len(names))


def _row(*values: object) -> str:
    return "| " + " | ".join(str(value) for value in values) + " |"


def main() -> None:
    """Fit, print, and write the files if asked to."""
    parser = argparse.ArgumentParser(description="Fit the attempt engine to recorded meet days.")
    parser.add_argument("data", type=Path, help="recorded days, csv.gz")
    parser.add_argument("--swap", action="store_true", help="exchange the halves")
    parser.add_argument("--nu", type=float, default=DEFAULT.strength_spread.value, help="of S")
    parser.add_argument("--write", action="store_true", help="renew the files in tests/data")
    asked = parser.parse_args()
    even, odd = halves(read_days(asked.data))
    days, kept_out = (odd, even) if asked.swap else (even, odd)
    lines, out = ({lift: count_lines(half, lift) for lift in Lift} for half in (days, kept_out))
    nu = replace(DEFAULT.strength_spread, value=asked.nu)
    parameters = replace(DEFAULT, strength_spread=nu)
    alone, fits = fit_all(lines, parameters)
    predicted = predict(fits, out, parameters)
    for line in report(days, alone, fits, lines, out, predicted):
        sys.stdout.write(line + "\n")
    if asked.write:
        _write(fits, lines, out)


def _write(
    fits: Mapping[Lift, Fit], lines: Mapping[Lift, Lines], out: Mapping[Lift, Lines]
) -> None:
    write_counts(out, CELLS)
    write_counts({lift: counted.without_jumps() for lift, counted in lines.items()}, AVERAGES)
    write_choices({lift: (one.figures.choices, one.errors.choices) for lift, one in fits.items()})


if __name__ == "__main__":
    main()
