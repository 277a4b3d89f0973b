"""Hot and cold stay apart for people who see fewer colors.

The matrices are those of Machado, Oliveira and Fernandes (2009), "A physiologically-based model
for simulation of color vision deficiency", for the whole loss of one kind of cone; the numbers
are from memory. They hold for linear RGB. CIE 1976 L*a*b* under D65 and its plain distance are
from the CIE's definition. That a distance of 40 is far beyond doubt is common practice, no source.
"""

import numpy as np
import pytest

from firing_review.ui.look import DARK, LIGHT

LOSSES = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
XYZ_OF_RGB = np.array(
    ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
)
WHITE = XYZ_OF_RGB.sum(axis=1)
FAR = 40.0


def linear(color: str) -> np.ndarray:
    parts = np.array([int(color[n : n + 2], 16) / 255.0 for n in (1, 3, 5)])
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def lab(rgb: np.ndarray) -> np.ndarray:
    ratio = XYZ_OF_RGB @ rgb / WHITE
    f = np.where(ratio > 216 / 24389, np.cbrt(ratio), (24389 / 27 * ratio + 16) / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def apart(one: str, other: str, loss: str) -> float:
    seen = [np.clip(np.array(LOSSES[loss]) @ linear(c), 0.0, 1.0) for c in (one, other)]
    return float(np.linalg.norm(lab(seen[0]) - lab(seen[1])))


@pytest.mark.parametrize("loss", LOSSES)
def test_grey_stays_grey_under_every_matrix(loss):
    assert np.array(LOSSES[loss]).sum(axis=1) == pytest.approx((1.0, 1.0, 1.0), abs=1e-4)


def test_red_and_green_would_not_do():
    assert apart("#B00000", "#4C7A00", "protan") < FAR


@pytest.mark.parametrize("colors", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("loss", LOSSES)
def test_hot_and_cold_stay_apart_whatever_is_missing(colors, loss):
    assert apart(colors.hot, colors.cold, loss) >= FAR
