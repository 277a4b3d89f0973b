@echo off
rem Builds the stand-alone program: a folder and one archive of it in dist\, to unpack anywhere.
cd /d "%~dp0.."
if not exist .venv\Scripts\python.exe py -3 -m venv .venv || exit /b 2
.venv\Scripts\python -m pip install --quiet --disable-pip-version-check -e .[standalone] || exit /b 2
.venv\Scripts\python .ci\standalone.py
