"""One browser's seat: a process of its own, that ends with it, and takes everything of its golfer along."""

from __future__ import annotations

import asyncio
import contextlib
import os
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, Protocol

if TYPE_CHECKING:
    from asyncio.subprocess import Process

End = Literal["gone", "left", "fault", "hung", "flood"]
"""How a seat ended: its browser went away; the PIN was typed; a fault of ours; it answered no more; its
browser said more than a person can."""
FLOOD, WITHIN = 200, 5.0
"""Things that a browser may say within so many seconds: a held key repeats about thirty times a second."""
_LONGEST_PAGE = 2**20
_LEFT = 0
"""Status of a process that was left with the PIN."""


class Browser(Protocol):
    """The other side of a seat."""

    async def send(self, message: str) -> None:
        """Send a line."""

    async def recv(self) -> str | bytes:
        """Return the next thing that it says; raises when it has gone."""


class Seat:
    """Carries lines between a browser and its process; both are asked now and then whether they are there."""

    def __init__(self, browser: Browser, command: Sequence[str], *, patience: float = 15.0) -> None:
        self._browser = browser
        self._command = command
        self._patience = patience
        self._alive = 0.0
        """When the process was last heard of."""

    async def hold(self) -> End:
        """Hold the seat until it ends, and leave no process behind, whatever ends it."""
        process = await asyncio.create_subprocess_exec(
            *self._command, stdin=asyncio.subprocess.PIPE, stdout=asyncio.subprocess.PIPE,
            limit=_LONGEST_PAGE, env=_environment(),
        )  # fmt: skip
        self._alive = asyncio.get_running_loop().time()
        carriers = [
            asyncio.create_task(job)
            for job in (self._heard(process), self._shown(process), self._watched(process))
        ]
        try:
            done, _ = await asyncio.wait(carriers, return_when=asyncio.FIRST_COMPLETED)
            return next(iter(done)).result()
        finally:
            await _ended(process, carriers)

    async def _heard(self, process: Process) -> End:
        """Carry what the browser says to the process."""
        clock, moments = asyncio.get_running_loop().time, [0.0] * FLOOD
        while True:
            try:
                said = await self._browser.recv()
            except Exception:  # however it went, it has gone
                return "gone"
            moments = [*moments[1:], clock()]
            if moments[-1] - moments[0] < WITHIN:
                return "flood"
            if isinstance(said, str) and "\n" not in said:
                await _tell(process, f"M{said}")

    async def _shown(self, process: Process) -> End:
        """Carry pages to the browser until the process ends."""
        assert process.stdout is not None
        while line := await process.stdout.readline():
            self._alive = asyncio.get_running_loop().time()
            if not await self._sent(line[1:].decode().rstrip() if line[:1] == b"F" else ""):
                return "gone"
        return "left" if await process.wait() == _LEFT else "fault"

    async def _watched(self, process: Process) -> End:
        """Ask the process whether it is there, until it no longer answers."""
        clock = asyncio.get_running_loop().time
        while clock() - self._alive < self._patience:
            await asyncio.sleep(self._patience / 5)
            try:
                await asyncio.wait_for(_tell(process, "P"), self._patience)
            except TimeoutError:
                break
        return "hung"

    async def _sent(self, text: str) -> bool:
        """Send something to the browser, an empty text to say that all is well; False if it takes nothing."""
        try:
            await asyncio.wait_for(self._browser.send(text), self._patience)
        except Exception:
            return False
        return True


async def _tell(process: Process, line: str) -> None:
    """Write a line to the process; that it has ended is noticed elsewhere."""
    assert process.stdin is not None
    with contextlib.suppress(ConnectionError):
        process.stdin.write(f"{line}\n".encode())
        await process.stdin.drain()


async def _ended(process: Process, carriers: Sequence[asyncio.Task[End]]) -> None:
    """End the process at once, since it has nothing to keep, and wait until the system has let it go."""
    for carrier in carriers:
        carrier.cancel()
    with contextlib.suppress(ProcessLookupError):
        process.kill()
    await asyncio.gather(*carriers, return_exceptions=True)
    await process.wait()


def _environment() -> dict[str, str]:
    """Return the environment of a seat: none of the toolkit's own variables can steer it."""
    return {name: text for name, text in os.environ.items() if not name.startswith("TEXTUAL")}
