"""Long work in a process of its own: what goes over, what comes back, what the process does.

A thread would not do: most of this work holds Python's lock for long, so that the window would
stand still, and a thread cannot be stopped before it is through. No Qt here.
"""

import os
import pickle
from collections.abc import Callable
from dataclasses import fields
from io import BytesIO
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from types import MappingProxyType
from typing import Any

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.log import FiringLog
from firing_review.firing.said import Said
from firing_review.firing.sheet import Given, Picture
from firing_review.firing.wording import Language, language
from firing_review.io.languages import speak

Tell = Callable[[float, Said], None]
"""Says how far the work is, from 0 to 1, and what is being done."""
PROGRESS, DONE, REFUSED, BROKEN = "progress", "done", "refused", "broken"
KNOWN, WHOLE = "known", "whole"
LARGE_BYTES = 65_536
"""Larger files go by themselves: to copy them among the rest would hold Python's lock."""
NICE = 10
"""The window gets nine times as much of a core as the work, while it wants it."""
_SHARED = (Given, FiringLog, Picture)
"""Large and never changed: like a large file, what went over comes back as the very object that
was sent."""
_FRESH = get_context("spawn")
"""A copy of a process with a window in it is no sound process."""


def begin() -> tuple[BaseProcess, Connection]:
    """Start a process that waits for one piece of work; return it and the way to talk to it."""
    here, there = _FRESH.Pipe()
    process = _FRESH.Process(target=serve, args=(there, language()), daemon=True)
    process.start()
    there.close()
    return process, here


def serve(way: Connection, spoken: Language) -> None:
    """Do one piece of work and send back its progress and its end, in the person's language."""
    _give_way()
    speak(spoken)
    work, arguments = receive(way, [])
    known = _shared_in((work, arguments))

    def tell(share: float, said: Said) -> None:
        send(way, (PROGRESS, (share, said)), known)

    try:
        end = (DONE, work(tell, *arguments))
    except FiringReviewError as error:
        end = (REFUSED, error)
    except BaseException as error:
        import traceback

        send(way, (BROKEN, "".join(traceback.format_exception(error))), known)
        raise
    send(way, end, known)


def _give_way() -> None:
    """Let the window go first where there is not a core for each; Windows has no such number."""
    if hasattr(os, "nice"):
        os.nice(NICE)


def send(way: Connection, thing: object, known: list[object]) -> list[object]:
    """Send a thing; what is in ``known`` goes as its number. Return what is shared from now on."""
    text, beside = BytesIO(), list[pickle.PickleBuffer]()
    packer = _Packer(text, known, beside.append)
    packer.dump(thing)
    way.send((len(beside), len(packer.whole)))
    way.send_bytes(text.getbuffer())
    for buffer in beside:
        way.send_bytes(buffer.raw())
    for whole in packer.whole:
        way.send_bytes(whole)
    return packer.found


def receive(way: Connection, known: list[object]) -> Any:  # noqa: ANN401 - whatever was sent
    """Return the next thing sent; raises EOFError when the other end is gone."""
    arrays, wholes = way.recv()
    text = way.recv_bytes()
    beside = [bytearray(way.recv_bytes()) for _ in range(arrays)]
    whole = [way.recv_bytes() for _ in range(wholes)]
    return _Unpacker(BytesIO(text), known, beside, whole).load()


def _shared_in(thing: object) -> list[object]:
    packer = _Packer(BytesIO(), [], lambda _buffer: None)
    packer.dump(thing)
    return packer.found


class _Packer(pickle.Pickler):
    """Arrays and files go beside the text uncopied; shared things in the order they are met."""

    def __init__(
        self, text: BytesIO, known: list[object], beside: Callable[[pickle.PickleBuffer], object]
    ) -> None:
        super().__init__(text, protocol=5, buffer_callback=beside)
        self._numbers = {id(one): number for number, one in enumerate(known)}
        self.found: list[object] = []
        self.whole: list[bytes] = []
        self._met: set[int] = set()
        self._places: dict[int, int] = {}

    def persistent_id(self, thing: object) -> tuple[str, int] | None:
        """Return the number of a thing the other end has already, or gets beside the text."""
        is_file = isinstance(thing, bytes) and len(thing) > LARGE_BYTES
        if not is_file and not isinstance(thing, _SHARED):
            return None
        if id(thing) not in self._met:
            self._met.add(id(thing))
            self.found.append(thing)
        number = self._numbers.get(id(thing))
        if number is not None:
            return KNOWN, number
        return (WHOLE, self._place_of(thing)) if is_file else None

    def _place_of(self, thing: bytes) -> int:
        if id(thing) not in self._places:
            self._places[id(thing)] = len(self.whole)
            self.whole.append(thing)
        return self._places[id(thing)]

    def reducer_override(self, thing: object) -> object:
        """Say how to make again what does not pack by itself."""
        if isinstance(thing, MappingProxyType):
            return _proxy, (dict(thing),)
        if isinstance(thing, InputError):
            return type(thing), tuple(getattr(thing, one.name) for one in fields(thing))
        return NotImplemented


class _Unpacker(pickle.Unpickler):
    def __init__(
        self, text: BytesIO, known: list[object], beside: list[bytearray], whole: list[bytes]
    ) -> None:
        super().__init__(text, buffers=beside)
        self._things = {KNOWN: known, WHOLE: whole}

    def persistent_load(self, named: tuple[str, int]) -> object:
        """Return the very object that was sent, or what came beside the text."""
        kind, number = named
        return self._things[kind][number]


def _proxy(values: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(values)
