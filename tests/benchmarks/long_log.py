"""A made-up log of very many rows, written as a logger would."""

from pathlib import Path

import numpy as np
import pandas as pd


def write_long_log(path: Path, rows: int) -> None:
    """Write a firing sampled every second, as most loggers would."""
    long_log(rows).to_csv(path, index=False)


def long_log(rows: int) -> pd.DataFrame:
    """Return a firing sampled every second: stamp, three sections, set point, output."""
    hours = np.arange(rows) / 3600.0
    peak = 0.7 * hours[-1]
    asked = 20.0 + 1200.0 * np.minimum(
        hours / peak, np.clip((hours[-1] - hours) / (hours[-1] - peak), 0, 1)
    )
    noise = np.random.default_rng(7).normal(0.0, 0.4, (3, rows))
    return pd.DataFrame(
        {
            "time": pd.Timestamp("2026-04-11 08:00:00")
            + pd.to_timedelta(np.arange(rows), unit="s"),
            "top_C": np.round(asked + 2.0 + noise[0], 1),
            "middle_C": np.round(asked - 1.0 + noise[1], 1),
            "bottom_C": np.round(asked - 4.0 + noise[2], 1),
            "setpoint_C": np.round(asked, 1),
            "output_pct": np.round(np.clip(30.0 + asked / 20.0, 0.0, 100.0), 0),
        }
    )
