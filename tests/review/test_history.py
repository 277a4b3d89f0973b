"""Undo and redo over whole reviews."""

from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.said import Said
from firing_review.review.history import DEPTH, History


def begun(*names):
    """Return a history whose reviews are stood for by texts; it never looks inside one."""
    history = History.of(names[0], Said("opened"))
    for name in names[1:]:
        history = history.push(name, Said(f"to {name}"))
    return history


def test_undo_goes_back_and_redo_forward_again():
    history = begun("a", "b", "c")
    assert history.undo().review == "b"
    assert history.undo().undo().review == "a"
    assert history.undo().undo().redo().review == "b"


def test_labels_say_what_would_be_undone_or_done_again():
    history = begun("a", "b", "c")
    assert history.undo_label == Said("to c")
    assert history.redo_label is None
    assert history.undo().redo_label == Said("to c")
    assert history.undo().undo_label == Said("to b")
    assert begun("a").undo_label is None


def test_an_edit_after_undo_drops_what_was_undone():
    history = begun("a", "b", "c").undo().push("d", Said("to d"))
    assert history.redo() is history
    assert history.undo().review == "b"


def test_at_either_end_nothing_happens():
    history = begun("a")
    assert history.undo() is history
    assert history.redo() is history


def test_the_oldest_steps_are_let_go():
    history = begun(*range(DEPTH + 20))
    for _ in range(DEPTH + 20):
        history = history.undo()
    assert history.review == 19


def test_a_review_worked_out_again_keeps_its_place():
    history = begun("a", "b").replace_present("b in another unit")
    assert history.review == "b in another unit"
    assert history.undo_label == Said("to b")


@given(st.lists(st.sampled_from(["edit", "undo", "redo"]), max_size=40))
def test_undo_then_redo_changes_nothing_wherever_one_is(steps):
    history = begun(0)
    for number, step in enumerate(steps, start=1):
        history = {
            "edit": lambda h, n=number: h.push(n, Said(str(n))),
            "undo": lambda h, _=None: h.undo(),
            "redo": lambda h, _=None: h.redo(),
        }[step](history)
    if history.past:
        again = history.undo().redo()
        assert (again.present, again.past, again.future) == (
            history.present,
            history.past,
            history.future,
        )
