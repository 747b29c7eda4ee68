"""Texts as JSON, so that an action's label reads right in whatever language is set later."""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from coachdesk.domain.text import Text, Value
from coachdesk.domain.units import Mass, Percent, Unit, parse_mass
from coachdesk.storage.column_kinds import entered


def text_to_json(text: Text) -> dict[str, Any]:
    """A text as plain JSON values."""
    return {"code": text.code, "values": {name: _dump(value) for name, value in text.values}}


def text_from_json(stored: dict[str, Any]) -> Text:
    """The text stored by `text_to_json`."""
    values = {name: _load(value) for name, value in stored["values"].items()}
    return Text(stored["code"], tuple(sorted(values.items())))


def _dump(value: Value) -> Any:
    match value:
        case Mass():
            dumped: Any = {"mass": entered(value)}
        case Percent():
            dumped = {"percent": value.value, "digits": value.digits}
        case Decimal():
            dumped = {"decimal": str(value)}
        case Text():
            dumped = {"text": text_to_json(value)}
        case datetime():
            dumped = {"datetime": value.isoformat()}
        case date():
            dumped = {"date": value.isoformat()}
        case time():
            dumped = {"time": value.isoformat()}
        case tuple():
            dumped = [_dump(part) for part in value]
        case _:
            dumped = value
    return dumped


def _load(stored: Any) -> Value:
    match stored:
        case {"mass": entered_as}:
            value: Value = parse_mass(entered_as, Unit.KG)
        case {"percent": number, "digits": digits}:
            value = Percent(number, digits)
        case {"decimal": number}:
            value = Decimal(number)
        case {"text": inner}:
            value = text_from_json(inner)
        case {"datetime": moment}:
            value = datetime.fromisoformat(moment)
        case {"date": day}:
            value = date.fromisoformat(day)
        case {"time": hour}:
            value = time.fromisoformat(hour)
        case list():
            value = tuple(_load(part) for part in stored)
        case _:
            value = stored
    return value
