"""Words a logger writes in place of a reading that it does not have."""

_WORDS = """
- -- --- ---- ----- + ++ +++ ++++ +++++ * *** **** --.- ---.- ? ?? ???
nan n/a na null none nil inf -inf +inf #n/a #value! #num! #ref! #div/0! 1.#inf 1.#qnan -1.#ind
nc n.c. bad invalid
ol o.l. o/l -ol open opentc o/c oc burnout burn-out break sbr s.br
err error fault fail failed over overload overrange ovr under underrange range short shorted
uuuu oooo hhhh llll hi lo
"""
_PHRASES = (
    "open tc",
    "tc open",
    "no probe",
    "no sensor",
    "no tc",
    "sensor break",
    "sensor error",
    "probe error",
    "tc error",
    "over range",
    "under range",
    "out of range",
)
GAP_WORDS = frozenset((*_WORDS.split(), *_PHRASES, ""))
"""In small letters; a cell that holds one of them is a gap."""


def spellings() -> list[str]:
    """Return the words in small and capital letters, and with a first capital, as they come."""
    words = [w for w in GAP_WORDS if w]
    return sorted({s for w in words for s in (w, w.upper(), w.capitalize(), w.title())})
