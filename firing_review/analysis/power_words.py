"""The result of a heat balance in plain words, with what it was compared with."""

from collections.abc import Sequence

from firing_review.analysis.power_shares import Share, Shares
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.results import SectionElements
from firing_review.firing.said import N_, Figures, Said
from firing_review.physics.circuits import named_steps_within

AS_THEN = 0.06
"""Load within this share of the earlier one is called the same."""
TIGHT_AS_THEN = 0.05
"""Heat loss up to this share more is called the same."""
LOST_PART = 0.92
"""Above this power no lost part is suggested: wear and supply explain it as well."""


def say_result(power: Share, shares: Shares, base: AlignedFiring) -> tuple[Said, ...]:
    """Return the sentences that a person reads first."""
    known: Figures = {
        "power_pct": 100.0 * power.value,
        "low_pct": 100.0 * power.low,
        "high_pct": 100.0 * power.high,
    }
    said = [_against(base, known), *_load_and_loss(shares)]
    names = named_steps_within(power.low, power.high)
    if names and power.high < LOST_PART:
        text = N_("Shares of power that one lost part usually leaves and that fit: {shares}.")
        said.append(Said(text, {"shares": ", ".join(names)}))
    return tuple(said)


def say_sections(sections: Sequence[SectionElements]) -> tuple[Said, ...]:
    """Return how much heat came to the probe of each section, where one got clearly less."""
    known = [(one.section, one.power_ratio) for one in sections if one.power_ratio is not None]
    if len(known) < 2 or min(power for _, power in known) > LOST_PART:
        return ()
    text = N_(
        "By the probes, of the heat of then: {sections}. Sections heat each other: a dead one "
        "shows less than the others, not none."
    )
    shares = ", ".join(f"{name} {100.0 * power:.0f} %" for name, power in known)
    return (Said(text, {"sections": shares}),)


def _against(base: AlignedFiring, known: Figures) -> Said:
    """Return the share of power; the earlier firing is named by its day, or else by its file."""
    if base.log.started_at is None:
        text = N_("About {power_pct} of the power of {earlier} ({low_pct} to {high_pct}).")
        return Said(text, {**known, "earlier": base.log.source})
    text = N_("About {power_pct} of the power of {earlier_day} ({low_pct} to {high_pct}).")
    return Said(text, {**known, "earlier_day": base.log.started_at.date().isoformat()})


def _load_and_loss(shares: Shares) -> tuple[Said, ...]:
    known: Figures = {
        "load_pct": 100.0 * shares.mass.value,
        "load_low_pct": 100.0 * shares.mass.low,
        "load_high_pct": 100.0 * shares.mass.high,
        "loss_pct": 100.0 * shares.loss.value,
        "loss_low_pct": 100.0 * shares.loss.low,
        "loss_high_pct": 100.0 * shares.loss.high,
    }
    same_load = abs(shares.mass.value - 1.0) <= AS_THEN
    tight = shares.loss.value <= 1.0 + TIGHT_AS_THEN
    if same_load and tight:
        return (Said(N_("Load and walls as then."), known),)
    said = []
    if not same_load:
        text = N_(
            "Load and walls took {load_pct} of the heat they took then "
            "({load_low_pct} to {load_high_pct})."
        )
        said.append(Said(text, known))
    if not tight:
        text = N_(
            "The kiln lost {loss_pct} of the heat it lost then "
            "({loss_low_pct} to {loss_high_pct})."
        )
        said.append(Said(text, known))
    return tuple(said)
