"""Text of a clipboard as a block of cells."""

import re


def block_of(text: str) -> list[list[str]]:
    """Return rows of cells as copied from a spreadsheet, a message or a card.

    Tabs part cells; without tabs semicolons do, then commas, then runs of blanks.
    """
    lines = [line for line in re.split(r"\r\n|\r|\n", text) if line.strip()]
    parting = next((sign for sign in ("\t", ";", ",") if any(sign in one for one in lines)), None)
    if parting is None:
        return [re.split(r"\s{2,}|(?<=\S)\s(?=\S)", line.strip()) for line in lines]
    return [[cell.strip() for cell in line.split(parting)] for line in lines]
