"""A seat whose process or browser hangs is let go; served in this process, with short patience."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

import pytest
from websockets.asyncio.client import connect
from websockets.exceptions import ConnectionClosed

from interview.web.doors import Place
from interview.web.seat import Seat
from interview.web.serve import Kiosk, Patience, _served

ECHO = (
    "import sys\n"
    "print('F{}', flush=True)\n"
    "for line in sys.stdin:\n"
    "    print('P' if line[0] == 'P' else 'F' + line[1:].strip(), flush=True)\n"
)
"""A process that answers as a seat does."""
HUNG = "import time\nprint('F{}', flush=True)\ntime.sleep(60)\n"
DEAF = "import sys, time\nprint('F{}', flush=True)\nsys.stdin.close()\ntime.sleep(60)\n"
BROKEN = "import sys\nsys.exit(70)\n"
SHORT = Patience(handshake=2.0, ask=0.3, seat=0.5)


@asynccontextmanager
async def kiosk(code: str, patience: Patience = SHORT) -> AsyncIterator[tuple[Kiosk, str]]:
    """A kiosk whose seats run a piece of code."""
    open_at: asyncio.Future[str] = asyncio.get_running_loop().create_future()
    at = Kiosk([sys.executable, "-c", code], seats=2, patience=patience)
    running = asyncio.create_task(_served(Place("127.0.0.1", 0), at, {}, open_at.set_result))
    said = await open_at
    try:
        yield at, said.split("http://")[1].split("/")[0]
    finally:
        at.close(0)
        assert await asyncio.wait_for(running, 10) == 0


def talk(authority: str) -> Any:
    return connect(f"ws://{authority}/talk", origin=f"http://{authority}", proxy=None)  # type: ignore[arg-type]


async def ending(browser: Any) -> int:
    """Return the code with which a talk ends."""
    try:
        while True:
            await asyncio.wait_for(browser.recv(), 10)
    except ConnectionClosed as ended:
        return ended.rcvd.code if ended.rcvd else 0


@pytest.mark.parametrize(("code", "told"), [(HUNG, 4002), (DEAF, 4002), (BROKEN, 4002)])
async def test_a_process_that_answers_no_more_is_ended_and_its_page_told(code: str, told: int) -> None:
    async with kiosk(code) as (at, authority), talk(authority) as browser:
        assert await ending(browser) == told
        await until(lambda: not at.browsers)


async def test_a_process_that_is_stopped_is_ended_too(monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[Any] = []
    real = asyncio.create_subprocess_exec

    async def noted(*command: Any, **how: Any) -> Any:
        begun.append(await real(*command, **how))
        return begun[-1]

    monkeypatch.setattr(asyncio, "create_subprocess_exec", noted)
    async with kiosk(ECHO) as (_, authority), talk(authority) as browser:
        assert await browser.recv() == "{}"
        os.kill(begun[0].pid, signal.SIGSTOP)
        assert await ending(browser) == 4002
        await until(lambda: begun[0].returncode is not None)
        assert begun[0].returncode == -signal.SIGKILL


async def test_one_that_answers_is_left_alone_however_long_nobody_says_anything() -> None:
    async with kiosk(ECHO) as (at, authority), talk(authority) as browser:
        assert await browser.recv() == "{}"
        signs = [await asyncio.wait_for(browser.recv(), 5) for _ in range(12)]
        assert signs == [""] * 12, "the page is told that all is well"
        assert len(at.browsers) == 1


async def test_seats_are_few_and_free_again_when_somebody_goes() -> None:
    async with kiosk(ECHO) as (at, authority), talk(authority) as one, talk(authority) as other:
        await until(lambda: len(at.browsers) == 2)
        async with talk(authority) as late:
            assert await ending(late) == 4001
        assert await other.recv() == "{}", "the others are not disturbed"
        await one.close()
        await until(lambda: len(at.browsers) == 1)
        async with talk(authority) as next_one:
            assert await next_one.recv() == "{}"


async def test_a_browser_that_hangs_is_let_go() -> None:
    async with kiosk(ECHO, Patience(2.0, 0.3, 5.0)) as (at, authority):
        host, port = authority.split(":")
        reader, writer = await asyncio.open_connection(host, int(port))
        key = "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\nSec-WebSocket-Version: 13\r\n"
        writer.write(
            f"GET /talk HTTP/1.1\r\nHost: {authority}\r\nOrigin: http://{authority}\r\n"
            f"Upgrade: websocket\r\nConnection: Upgrade\r\n{key}\r\n".encode()
        )
        assert b"101" in await reader.readline()
        await until(lambda: len(at.browsers) == 1)
        await until(lambda: not at.browsers)  # it reads nothing and answers no ping
        writer.close()


async def test_one_who_connects_and_says_nothing_is_let_go() -> None:
    async with kiosk(ECHO, Patience(0.3, 5.0, 5.0)) as (_, authority):
        host, port = authority.split(":")
        reader, writer = await asyncio.open_connection(host, int(port))
        writer.write(b"GET / HT")
        assert await asyncio.wait_for(reader.read(), 5) == b"", "closed without an answer"
        writer.close()


async def test_a_browser_that_takes_nothing_is_let_go() -> None:
    class Stuck:
        async def send(self, message: str) -> None:
            await asyncio.sleep(60)

        async def recv(self) -> str:
            await asyncio.sleep(60)
            return ""

    assert (
        await asyncio.wait_for(Seat(Stuck(), [sys.executable, "-c", ECHO], patience=0.4).hold(), 10) == "gone"
    )


async def until(true: Callable[[], object]) -> None:
    for _ in range(500):
        if true():
            return
        await asyncio.sleep(0.02)
    raise AssertionError("it did not come true")
