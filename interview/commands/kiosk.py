"""`turfpair kiosk`: the customer's screen, one visitor after another, until the staff close it.

With `--web` it is served to browsers: this command then runs once more for each of them, as its seat.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import time
from argparse import SUPPRESS, ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Callable, Iterator
from getpass import getpass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from interview.commands.common import house, store
from interview.commands.errors import BROKEN, DONE, UsageProblem, guarded
from interview.text import one_line

if TYPE_CHECKING:
    from interview.kiosk.clock import Clock
    from interview.kiosk.pin import PinFile
    from interview.kiosk.reception import Reception
    from interview.screens.kiosk.app import KioskApp

PORT = 8460
"""Where browsers are served unless another port is named: one that no well-known service uses."""
_LOCKING = Path(__file__).parents[1] / "kiosk" / "locking.md"
"""What a terminal cannot lock, and how to lock it."""
_SIGNALS_FROM_KEYS = ("SIGINT", "SIGQUIT", "SIGTSTP")
"""Signals that a chord can send where a terminal lets it; not every system has all of them."""
_PAUSE, _LONGEST_PAUSE = 0.5, 30.0
"""Seconds before the screen is opened again after a fault of ours; doubled while faults follow closely."""
_CLOSELY = 60.0
"""Seconds within which one fault follows closely on another."""


def configure(parser: ArgumentParser) -> None:
    """Add what `kiosk` takes. The PIN is asked for, never given here, where a list of processes shows it."""
    parser.epilog = (
        "A program cannot lock its machine: window switching, virtual consoles, power and disk are for the "
        f"operating system. How to lock them: {_LOCKING}"
    )
    parser.add_argument("--set-pin", action="store_true", help="asks for a staff PIN, keeps it, and ends")
    web = parser.add_argument_group("in a browser (wants the extra 'web')")
    web.add_argument("--web", action="store_true", help="serves the same screens to browsers")
    web.add_argument("--port", type=port, default=PORT, help=f"where: {PORT} unless given, 0 for any free")
    web.add_argument("--host", default="127.0.0.1", help="an address of this machine: loopback unless given")
    web.add_argument("--network", action="store_true", help="lets others reach a host that is not loopback")
    web.add_argument("--seat", action="store_true", help=SUPPRESS)


def port(text: str) -> int:
    """Read the number of a port; ArgumentTypeError for what is none."""
    if text.isascii() and text.isdigit() and int(text) < 2**16:
        return int(text)
    raise ArgumentTypeError(f"a port is a number from 1 to 65535, not '{one_line(text, 20)}'")


def run(args: Namespace) -> int:
    """Set the PIN, or open the screen until it is left with the PIN or ended by a signal."""
    from interview.kiosk.pin import PinFile

    file = PinFile(_folder())
    if args.seat:
        return _seat(args, file)
    if args.set_pin or not file.exists or not args.web:
        _needs_terminal(file if args.web else None)
    if args.set_pin or not file.exists:
        _set_pin(file)
    if args.set_pin:
        return DONE
    if args.web:
        return _serve(args)
    if args.no_color:
        os.environ["NO_COLOR"] = "1"
    os.environ.pop("TEXTUAL_ALLOW_SIGNALS", None)  # it would let ctrl+c interrupt
    with deaf_to_keys():
        return keep_open(_maker(args, file))


def _folder() -> Path:
    """Return where the PIN is kept."""
    from interview.folders import state_folder

    return state_folder() / "kiosk"


def _serve(args: Namespace) -> int:
    """Serve browsers; what could keep a seat from opening is said now, not to a golfer."""
    from interview.views.kiosk.words import page_phrases
    from interview.web.doors import place
    from interview.web.serve import serve

    at = place(args.host, args.port, network=args.network)
    house(args)
    store(args)
    command = [sys.executable, "-P", "-m", "interview.commands.main", "kiosk", "--seat"]
    for name in ("rules", "catalogue", "sessions", "units"):
        if getattr(args, name) is not None:
            command += [f"--{name}", str(getattr(args, name))]
    return serve(at, command, page_phrases(), say=lambda line: print(line, flush=True))


def _seat(args: Namespace, file: PinFile) -> int:
    """Be the seat of one browser: fed by the standard input, until that ends or the PIN is typed."""
    from interview.screens.kiosk.seat import SeatApp

    reception, clock = _reception(args, file)
    with deaf_to_keys():
        app = SeatApp(reception, clock)
        status = app.run(headless=True, size=(80, 24))
    if app.fault is None and status is not None:
        return status
    _note(app.fault)
    return BROKEN


def _needs_terminal(web: PinFile | None = None) -> None:
    """Refuse to start where no screen can be drawn or no key be read; `web` lacks only its PIN."""
    if web is not None and not (sys.stdin and sys.stdin.isatty()):
        raise UsageProblem("kiosk: no staff PIN is set; 'turfpair kiosk --set-pin' in a terminal sets one")
    if not (sys.stdin and sys.stdin.isatty() and sys.__stderr__ and sys.__stderr__.isatty()):
        raise UsageProblem("kiosk: this needs a terminal; 'turfpair ask --voice customer' asks line by line")
    if os.environ.get("TERM", "dumb") in ("dumb", "unknown", ""):
        raise UsageProblem(
            "kiosk: this terminal cannot draw a screen; 'turfpair ask --voice customer' asks line by line"
        )


def _set_pin(file: PinFile) -> None:
    """Ask for a new PIN twice and keep it."""
    print("The staff PIN closes the kiosk. 6 to 12 digits; they are not shown as typed.")
    pin = getpass("New staff PIN: ")
    if getpass("The same again: ") != pin:
        raise UsageProblem("kiosk: the two PINs differ, so none was set")
    file.set(pin)
    print("The staff PIN is set.")


def _maker(args: Namespace, file: PinFile) -> Callable[[], KioskApp]:
    """Return what makes a fresh screen, with nothing in it of the one before."""
    from interview.screens.kiosk.app import KioskApp

    reception, clock = _reception(args, file)
    return lambda: KioskApp(reception, clock)


def _reception(args: Namespace, file: PinFile) -> tuple[Reception, Clock]:
    """Return what receives the visitors, and the clocks it reads."""
    from interview.kiosk.clock import Clock
    from interview.kiosk.gate import Gate
    from interview.kiosk.interview import Interviews
    from interview.kiosk.reception import Reception

    clock, kept = Clock(), store(args)
    gate, afresh = Gate(file, clock), Interviews(house(args))
    reception = Reception(afresh(), kept, gate, clock, units=args.units or "imperial", afresh=afresh)
    return reception, clock


def keep_open(
    make: Callable[[], KioskApp], sleep: Callable[[float], None] = time.sleep,
    clock: Callable[[], float] = time.monotonic,
) -> int:  # fmt: skip
    """Run screens until one is left; a fault of ours opens a fresh one instead of a way to the shell."""
    pause, last = _PAUSE, -_CLOSELY
    while True:
        app = make()
        status = app.run()
        ignore_keys()  # the toolkit leaves them as they are by default
        if app.fault is None and status is not None:
            return int(status)
        _note(app.fault)
        now = clock()
        pause = min(_LONGEST_PAUSE, pause * 2) if now - last < _CLOSELY else _PAUSE
        last = now
        sleep(pause)


def _note(fault: Exception | None) -> None:
    """Note a fault of ours for the staff: places in the program, never what was said."""

    def again() -> int:
        if fault is not None:
            raise fault
        return DONE

    guarded(again)


def ignore_keys() -> dict[int, Any]:
    """Ignore the signals that a chord can send, and return what was done about them before."""
    numbers = [getattr(signal, name) for name in _SIGNALS_FROM_KEYS if hasattr(signal, name)]
    return {number: signal.signal(number, signal.SIG_IGN) for number in numbers}


@contextlib.contextmanager
def deaf_to_keys() -> Iterator[None]:
    """Ignore those signals for a while, also between one screen and the next."""
    before = ignore_keys()
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
