@echo off
rem All checks of the project: style, types, direction of imports, tests. Arguments go to pytest.
cd /d "%~dp0.."
if not exist .venv\Scripts\python.exe py -3 -m venv .venv || exit /b 2
.venv\Scripts\python -m pip install --quiet --disable-pip-version-check -r .ci\lock.txt || exit /b 2
.venv\Scripts\python -m pip install --quiet --disable-pip-version-check --no-deps -e . || exit /b 2
.venv\Scripts\python -m ruff check . || exit /b 1
.venv\Scripts\python -m ruff format --check . || exit /b 1
.venv\Scripts\python -m mypy || exit /b 1
.venv\Scripts\lint-imports || exit /b 1
.venv\Scripts\python -m pytest -n auto --benchmark-disable %*
