"""Work for a process of its own, quick to load there."""

import os
import time

import numpy as np

from firing_review.firing.errors import InputError
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.said import Said


def count_to(tell, number):
    for n in range(number):
        tell(n / number, Said("Counting, {n}", {"n": n}))
    return np.arange(number, dtype=float)


def read_anew(_tell, raw, other):
    hours = np.arange(3.0)
    channels = (Channel("T", ChannelRole.CHAMBER, hours),)
    return other, FiringLog("a.csv", hours, channels, raw=raw)


def refuse(_tell, where):
    raise InputError(where, "a jug", "a bowl", "Throw again.", line=3)


def sleep_long(_tell):
    time.sleep(60.0)


def give_back(_tell, given):
    return (given, given.log)


def niceness(_tell):
    return os.nice(0)
