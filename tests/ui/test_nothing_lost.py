"""Going from place to place loses nothing that the window still needs."""

import gc

from shiboken6 import isValid


def test_going_through_the_places_leaves_every_action_of_the_menus_to_python(window, log_file):
    window.open_path(log_file)
    for place in window.places.all():
        window.work.go_to(place.key)
    window.work.list.setFocus()
    for place in window.places.all():
        window.work.panel(place.key).setFocus()
        window.work.go_to(place.key)
    gc.collect()
    menu = window.firing.chart.extras.menu
    assert all(map(isValid, (menu.ranges, menu.note, menu.copy_picture)))
