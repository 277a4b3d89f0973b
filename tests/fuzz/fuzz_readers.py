"""Coverage-guided fuzzing of every reader, by hand and outside the usual checks.

    pip install atheris
    export PYTHONPATH=.:tests
    python tests/fuzz/fuzz_readers.py -max_total_time=1200 FOUND tests/fuzz/corpus

``FOUND`` is a folder for new inputs; ``small_corpus.py`` picks what is worth keeping of it.
A fault ends the run and leaves its input in a file ``crash-...``.
"""

import sys
import warnings

import atheris

with atheris.instrument_imports(include=["firing_review"]):
    from fuzz.targets import read_one


def main() -> None:
    """Let the fuzzer loose; its own options are those of libFuzzer."""
    warnings.simplefilter("error")
    atheris.Setup(sys.argv, read_one)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
