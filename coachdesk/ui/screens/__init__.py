"""The screens, in the order a coach's day goes. Each is loaded when it is first shown, or ahead
of that in the background."""

from __future__ import annotations

import importlib
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """Where a screen is found: its key, the module and the class."""

    key: str
    module: str
    name: str


SCREENS = (
    Place("today", "coachdesk.ui.screens.today.screen", "TodayScreen"),
    Place("roster", "coachdesk.ui.screens.roster.screen", "RosterScreen"),
    Place("blocks", "coachdesk.ui.screens.blocks.screen", "BlocksScreen"),
    Place("meets", "coachdesk.ui.screens.meets.screen", "MeetsScreen"),
    Place("compare", "coachdesk.ui.screens.compare.screen", "CompareScreen"),
    Place("bar", "coachdesk.ui.screens.bar.screen", "BarScreen"),
    Place("rulebooks", "coachdesk.ui.screens.rulebooks.screen", "RulebooksScreen"),
    Place("settings", "coachdesk.ui.screens.settings.screen", "SettingsScreen"),
)


def load_screens() -> None:
    """Load the code of all screens, of the engine they plan with and of what draws their charts, so
    that neither the first visit nor the first plan or chart waits for it."""
    for place in SCREENS:
        importlib.import_module(place.module)
    importlib.import_module("coachdesk.services.plan_request")
    importlib.import_module("pyqtgraph")
