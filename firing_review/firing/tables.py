"""The published tables a review rests on, read once and handed down."""

from dataclasses import dataclass

from firing_review.firing.cones import ConeTable


@dataclass(frozen=True)
class Tables:
    """Everything read from ``resources/`` that computation needs."""

    cones: ConeTable
    cones_iron_free: ConeTable
