"""Serves the kiosk to browsers until the staff's PIN or a signal ends it."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import signal
import socket
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from interview.web.doors import Answer, Doors, Place
from interview.web.problems import WebProblem
from interview.web.seat import End, Seat

if TYPE_CHECKING:
    from websockets.asyncio.server import ServerConnection
    from websockets.http11 import Request, Response

SEATS = 6
"""Browsers at most that hold a seat at the same time."""
CLOSED, FULL, AFRESH, ENOUGH = 4000, 4001, 4002, 4003
"""What the page is told when its talk ends: the staff closed the kiosk; no seat is free; it begins afresh
after a fault of ours; it said more than a person can."""
_CODES: Mapping[End, int] = {"left": CLOSED, "flood": ENOUGH, "fault": AFRESH, "hung": AFRESH, "gone": AFRESH}
_LONGEST_SAID = 1024
"""Bytes of one thing that a browser says."""


@dataclass(frozen=True, slots=True)
class Patience:
    """How long is waited for whom, in seconds."""

    handshake: float = 5.0
    """For a browser to say what it wants."""
    ask: float = 5.0
    """Between two questions to a browser whether it is there; as long again for its answer."""
    seat: float = 15.0
    """For a process to answer."""


@dataclass(slots=True)
class Kiosk:
    """The seats that are taken, and whether it is to close."""

    command: Sequence[str]
    """What starts the process of a seat."""
    seats: int = SEATS
    patience: Patience = Patience()
    closing: asyncio.Event = field(default_factory=asyncio.Event)
    status: int = 0
    """The exit status once it closes."""
    browsers: set[ServerConnection] = field(default_factory=set)
    """Those that hold a seat."""

    def close(self, status: int) -> None:
        """Close the kiosk; whoever closes it first says with which status."""
        if not self.closing.is_set():
            self.status = status
            self.closing.set()

    async def receive(self, browser: ServerConnection) -> None:
        """Give a browser a seat, if one is free."""
        if self.closing.is_set() or len(self.browsers) >= self.seats:
            await browser.close(CLOSED if self.closing.is_set() else FULL)
            return
        self.browsers.add(browser)
        try:
            end = await Seat(browser, self.command, patience=self.patience.seat).hold()
        finally:
            self.browsers.discard(browser)
        if end == "left":
            self.close(0)
        await browser.close(CLOSED if self.closing.is_set() else _CODES[end])

    async def send_away(self) -> None:
        """Tell every browser that the kiosk is closed."""
        await asyncio.gather(*(one.close(CLOSED) for one in self.browsers), return_exceptions=True)


def serve(
    at: Place, command: Sequence[str], phrases: Mapping[str, str], *, say: Callable[[str], object] = print,
    seats: int = SEATS, patience: Patience | None = None,
) -> int:  # fmt: skip
    """Serve the kiosk and return the exit status; WebProblem when it cannot be served there."""
    try:
        import websockets  # noqa: F401
    except ImportError:
        raise WebProblem.no_extra() from None
    return asyncio.run(_served(at, Kiosk(command, seats, patience or Patience()), phrases, say))


async def _served(at: Place, kiosk: Kiosk, phrases: Mapping[str, str], say: Callable[[str], object]) -> int:
    """Listen until the kiosk closes."""
    from websockets.asyncio.server import serve as listen

    try:
        family = socket.AF_INET6 if ":" in at.host else socket.AF_INET
        heard_at = socket.create_server((at.host, at.port), family=family)
    except OSError as error:
        raise WebProblem.cannot_listen(at.host, at.port, error) from None
    here, patience = Place(at.host, heard_at.getsockname()[1]), kiosk.patience
    doors = Doors(here, phrases)
    quiet = logging.getLogger("turfpair.web")
    quiet.disabled = True  # what strangers send is nothing to print at the staff

    def asked(_: ServerConnection, request: Request) -> Response | None:
        method = getattr(request, "method", "GET")  # older releases let no other one this far
        answer = doors.answer(request.path, request.headers.get_all("Host"), method)
        return _response(answer, request, here.origins)

    server = await listen(
        kiosk.receive, sock=heard_at, process_request=asked, compression=None, server_header=None,
        max_size=_LONGEST_SAID, max_queue=8, open_timeout=patience.handshake, close_timeout=2.0,
        ping_interval=patience.ask, ping_timeout=patience.ask, logger=quiet,
    )  # fmt: skip
    async with server:
        _obey_signals(kiosk)
        say(f"The kiosk is at {here.address} until the staff PIN or ctrl+c closes it.")
        await kiosk.closing.wait()
        await kiosk.send_away()
    return kiosk.status


def _response(answer: Answer | None, request: Request, origins: frozenset[str]) -> Response | None:
    """Return an answer as it is sent; a talk is let through for our own page alone."""
    from websockets.datastructures import Headers
    from websockets.http11 import Response

    if answer is None:
        said = request.headers.get_all("Origin")
        if len(said) == 1 and said[0].lower() in origins:
            return None
        answer = Answer(403, "Forbidden", {"Content-Type": "text/plain"}, b"This is not our page.\n")
    headers = Headers({**answer.headers, "Content-Length": str(len(answer.body)), "Connection": "close"})
    return Response(answer.status, answer.reason, headers, answer.body)


def _obey_signals(kiosk: Kiosk) -> None:
    """Close the kiosk when the system or the keyboard of its terminal says so."""
    loop = asyncio.get_running_loop()
    for name in ("SIGTERM", "SIGHUP", "SIGINT"):
        number = getattr(signal, name, None)
        if number is not None:
            with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):
                loop.add_signal_handler(number, kiosk.close, 128 + number)
