"""The desktop: Qt widgets over presenters; first paint needs nothing but Qt."""

import builtins

import PySide6.QtCore  # noqa: F401

# So that a module may ask for other spellings of Qt's names (`from __feature__ import ...`), PySide
# takes the place of Python's import and reads the source of every module loaded after it. Nothing
# here asks for that, and it is a tenth of the start.
builtins.__import__ = getattr(builtins, "__orig_import__", builtins.__import__)
