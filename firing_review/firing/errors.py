"""Errors whose text a potter can act on."""

from dataclasses import dataclass

from firing_review.firing.wording import tr


class FiringReviewError(Exception):
    """Root of every error this program raises on purpose."""


@dataclass
class InputError(FiringReviewError):
    """Something given by the person cannot be used.

    Parameters
    ----------
    where : str
        The file or field, as the person would name it.
    expected, found : str
        What was expected and what stood there instead.
    remedy : str
        What to do about it, as an instruction.
    line, column : int, optional
        Place in the file, counted from 1.
    """

    where: str
    expected: str
    found: str
    remedy: str
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        """Return the one line that is shown: where, expected, found, what to do."""
        return " ".join(f"{self.heading} {self.remedy}".split())

    @property
    def heading(self) -> str:
        """The line without what to do."""
        place = self.where
        if self.line is not None:
            place += tr(", line {line}").format(line=self.line)
        if self.column is not None:
            place += tr(", column {column}").format(column=self.column)
        text = tr("{place}: expected {expected}, found {found}.")
        return text.format(place=place, expected=self.expected, found=self.found)


class DoubtError(InputError):
    """The input can be read in more than one way and nobody could be asked.

    The remedy names the option or the answer that settles it.
    """
