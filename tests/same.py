"""Whether two firings hold the same, arrays included."""

import dataclasses
import math
from collections.abc import Mapping

import numpy as np


def same(one: object, other: object) -> bool:
    """Compare two values of any depth; a gap in an array equals a gap."""
    if dataclasses.is_dataclass(one):
        pairs = [(getattr(one, f.name), getattr(other, f.name)) for f in dataclasses.fields(one)]
        return type(one) is type(other) and all(same(a, b) for a, b in pairs)
    if isinstance(one, np.ndarray):
        return np.array_equal(one, other, equal_nan=one.dtype.kind == "f")
    if isinstance(one, tuple | list):
        return type(one) is type(other) and len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, Mapping):
        return list(one) == list(other) and all(same(one[key], other[key]) for key in one)
    if isinstance(one, float) and math.isnan(one):
        return isinstance(other, float) and math.isnan(other)
    return bool(one == other)
