"""Where ``resources/`` and ``demo_logs/`` are: inside an installed package or in a checkout."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def _folder(name: str) -> Path:
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def resource(*parts: str) -> Path:
    """Return the path of a file below ``resources/``."""
    return _folder("resources").joinpath(*parts)


def demo_logs() -> Path:
    """Return the folder of the invented demo firings."""
    return _folder("demo_logs")
