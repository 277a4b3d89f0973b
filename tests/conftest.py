"""Shared by all tests: no window system, and no trace in the person's own folders."""

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["LANGUAGE"] = "en_US"
"""Texts in the tests are those of the code, whatever the system of the person who runs them."""


@pytest.fixture(autouse=True)
def _home_of_its_own(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch):
    """Keep preferences and recovery files of one test from reaching another, or the user."""
    monkeypatch.setenv("FIRING_REVIEW_HOME", str(tmp_path_factory.mktemp("home")))
