"""The demo firings that come with the program, each with its story."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from firing_review.io.resource_path import demo_logs

STORY_NAMES = ("story.txt", "story.md", "README.md", "README.txt")
SHEET = "firing.toml"


@dataclass(frozen=True)
class Demo:
    """One demo firing: its folder, its title, and what happened, in two lines."""

    folder: Path
    title: str
    story: str


def demo_firings(folder: Path | None = None) -> list[Demo]:
    """Return the demo firings in the order of their folders."""
    folder = folder or demo_logs()
    if not folder.is_dir():
        return []
    return [_demo(sheet.parent) for sheet in sorted(folder.glob(f"*/{SHEET}"))]


def is_demo(path: Path | None) -> bool:
    """Tell whether a file or folder is one of the demo firings."""
    return path is not None and demo_logs().resolve() in path.resolve().parents


def _demo(folder: Path) -> Demo:
    title = folder.name.replace("_", " ")
    try:
        values = tomllib.loads((folder / SHEET).read_text(encoding="utf-8"))
        title = str(values.get("title", title))
    except (OSError, ValueError):
        pass
    return Demo(folder, title, _story(folder))


def _story(folder: Path) -> str:
    for name in STORY_NAMES:
        path = folder / name
        if path.is_file():
            lines = path.read_text(encoding="utf-8").splitlines()
            told = [line.strip() for line in lines if line.strip() and not line.startswith("#")]
            return " ".join(told)
    return ""
