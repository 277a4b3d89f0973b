"""The list of detectors."""

import importlib
import inspect
import pkgutil

from firing_review import analysis
from firing_review.analysis.find import FIRING_DETECTORS, PROBE_DETECTORS, find_all

ARGUMENTS = (["firing", "limits"], ["firing", "clean", "limits"])


def detectors() -> set[str]:
    """Return every function of the package that has the form of a detector."""
    found = set()
    for part in pkgutil.iter_modules(analysis.__path__):
        module = importlib.import_module(f"{analysis.__name__}.{part.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            told = [word.lstrip("_") for word in inspect.signature(function).parameters]
            if name.startswith("find_") and told in ARGUMENTS:
                found.add(name)
    return found - {find_all.__name__}


def test_every_detector_is_named_in_the_list_and_so_is_run():
    named = [detector.__name__ for detector in (*FIRING_DETECTORS, *PROBE_DETECTORS)]
    assert sorted(named) == sorted(detectors())
