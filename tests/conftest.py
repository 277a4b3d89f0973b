"""Shared by all tests: no window system, and no trace in the person's own folders."""

import os

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["LANGUAGE"] = "en_US"
"""Texts in the tests are those of the code, whatever the system of the person who runs them."""

settings.register_profile("steady", derandomize=True)
settings.register_profile("seeking", print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
"""The same examples on every run, so that a change is judged by what it changed; others are
sought with HYPOTHESIS_PROFILE=seeking."""


@pytest.fixture(autouse=True)
def _home_of_its_own(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch):
    """Keep preferences and recovery files of one test from reaching another, or the user."""
    monkeypatch.setenv("FIRING_REVIEW_HOME", str(tmp_path_factory.mktemp("home")))
