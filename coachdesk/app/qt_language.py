"""Qt's part in the language: what the system speaks, Qt's own words, its calendars and dates."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from coachdesk.app.words import ENGLISH, of_environment, spoken

_BRITISH = QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom)
_NAME = "words_of_qt"


def language_of_system() -> str:
    """The system's language as far as we speak it. Qt knows it where the environment does not
    say, as on Windows and macOS."""
    return spoken("", of_environment() or QLocale.system().uiLanguages())


def speak_qt(language: str) -> None:
    """Let Qt's own buttons, menus and calendars speak `language`. Dates are read and shown as the
    system does where it speaks the same language, else as is usual in that language."""
    system = QLocale.system()
    own = _BRITISH if language == ENGLISH else QLocale(language)
    QLocale.setDefault(system if system.language() is own.language() else own)
    application = QCoreApplication.instance()
    if application is None:
        return
    for earlier in application.findChildren(QTranslator, _NAME):
        QCoreApplication.removeTranslator(earlier)
        earlier.deleteLater()
    if language == ENGLISH:
        return
    translator = QTranslator(application)
    translator.setObjectName(_NAME)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    if translator.load(f"qtbase_{language}", folder):
        QCoreApplication.installTranslator(translator)
