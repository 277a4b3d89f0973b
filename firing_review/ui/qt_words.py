"""Qt's own words, of its dialogs, its fields and the keys, in the language of the texts."""

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from firing_review.firing.wording import language

_NAME = "words of Qt"


def speak_with_qt() -> None:
    """Let Qt say what it says by itself in the language in use; English stands in its code."""
    application, locale = QCoreApplication.instance(), QLocale(language().value)
    QLocale.setDefault(locale)
    if application is None:
        return
    for before in application.findChildren(QTranslator, _NAME):
        QCoreApplication.removeTranslator(before)
        before.deleteLater()
    translator = QTranslator(application)
    translator.setObjectName(_NAME)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    if translator.load(locale, "qtbase", "_", folder):
        QCoreApplication.installTranslator(translator)
