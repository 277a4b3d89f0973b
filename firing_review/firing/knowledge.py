"""What is known about causes: facts, how likely each cause makes them, checks, fixes, cautions."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from firing_review.firing.results import AgainWord, Check


@dataclass(frozen=True)
class Fact:
    """A question about a firing with exclusive outcomes.

    Attributes
    ----------
    ordinary : mapping
        How often each outcome is seen when nothing is wrong; sums to 1.
    texts : mapping
        The sentence for each outcome, with places for this firing's figures.
    """

    id: str
    question: str
    ordinary: Mapping[str, float]
    texts: Mapping[str, str]


@dataclass(frozen=True)
class CheckKnown:
    """A check and the fact it would answer.

    Attributes
    ----------
    power_on : bool
        Whether it needs the kiln switched on: never advised where there is a sign of danger.
    """

    fact: str
    check: Check
    power_on: bool = False


@dataclass(frozen=True)
class CauseKnown:
    """One cause: how often, what it changes, what tells it apart, what to do.

    Attributes
    ----------
    prior : float
        How often it is what a firing under review shows; weak.
    likelihood : mapping
        For each fact it changes, how often each outcome is then seen; other facts are ordinary.
    again, again_text : AgainWord, str
        Whether the kiln may be fired with it, and on what condition.
    """

    id: str
    name: str
    what: str
    prior: float
    prior_source: str
    likelihood: Mapping[str, Mapping[str, float]]
    checks: tuple[CheckKnown, ...]
    fix: str
    caution: str
    sources: tuple[str, ...]
    again: AgainWord
    again_text: str

    def texts(self) -> Iterator[str]:
        """Yield every text of this cause that can be shown, for the catalogue."""
        yield from (self.name, self.what, self.fix, self.caution, self.again_text)
        for known in self.checks:
            check = known.check
            yield from (check.text.text, check.who)
            yield from (said.text for said in (check.tool, check.settles) if said is not None)


@dataclass(frozen=True, eq=False)
class Knowledge:
    """All facts and causes."""

    facts: Mapping[str, Fact]
    causes: tuple[CauseKnown, ...]

    def texts(self) -> tuple[str, ...]:
        """Return every text that can be shown, each once: what a catalogue must translate."""
        of_facts = (t for f in self.facts.values() for t in (f.question, *f.texts.values()))
        of_causes = (t for c in self.causes for t in c.texts())
        return tuple(dict.fromkeys([*of_facts, *of_causes]))

    def share(self, cause: CauseKnown, fact: str, outcome: str) -> float:
        """Return how often a cause makes an outcome seen."""
        table = cause.likelihood.get(fact) or self.facts[fact].ordinary
        return float(table[outcome])
