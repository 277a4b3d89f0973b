"""How the log was read, in one line."""

from firing_review.firing.log import FiringLog
from firing_review.firing.wording import tr, trn
from firing_review.report import wording


def reading_notes(log: FiringLog, show: wording.Show) -> list[str]:
    """Return the sentences about reading: rows, unit, what was left out, what was mended."""
    text = tr("Read as °{unit}: {rows} rows over {length}.")
    length = wording.hours(log.hours)
    notes = [text.format(unit=log.unit_read.value, rows=log.rows, length=length)]
    if log.rows_dropped:
        left_out = trn("{count} row left out.", "{count} rows left out.", log.rows_dropped)
        notes.append(left_out.format(count=log.rows_dropped))
    return [*notes, *(wording.render(note.said, show) for note in log.notes)]
