@echo off
rem Opens the window, on a demo firing unless something else is named.
set "named=%~f1"
if "%~1"=="" set "named=demo_logs\2_worn_heating_elements\firing.toml"
cd /d "%~dp0.."
if not exist .venv\Scripts\python.exe py -3 -m venv .venv || exit /b 2
fc /b pyproject.toml .venv\installed.toml >nul 2>&1 || (
    echo Fetching what is needed into .venv; the first time this takes a few minutes.
    .venv\Scripts\python -m pip install --quiet --disable-pip-version-check -e . || exit /b 2
    copy /y pyproject.toml .venv\installed.toml >nul
)
.venv\Scripts\firing-review "%named%"
