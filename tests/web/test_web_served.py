"""The kiosk as it is served: who may talk, how many, and what is left of them when they are gone."""

from __future__ import annotations

import json
import os
import signal
import socket
import time
from pathlib import Path
from typing import Any

import pytest
from websockets.exceptions import ConnectionClosed, InvalidStatus

pytestmark = pytest.mark.slow
NONSENSE = (
    "", "{", "[]", "null", "1", '"quit"', '{"key": "q"}', '{"key": "ctrl+q"}', '{"key": "ctrl+c"}',
    '{"key": 7}',
    '{"press": "left", "page": 0}', '{"press": "start", "page": 99}', '{"press": "start"}',
    '{"size": [0, -5]}',
    '{"size": [1e9, 3]}', '{"size": [999999999, 999999999]}', '{"size": "big"}', '{"paste": "918273"}',
    '{"action": "quit"}', '{"open_url": "http://evil.example"}', "P", "L", "M{}", "\x1b[200~quit\x1b[201~",
    '{"key": "\\u0003"}', '{"key": "f1"}', "[" * 900, '{"page": true, "press": "start"}', "x\nP\n", "\x00",
)  # fmt: skip
"""What no page of ours says."""


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def sized(talk: Any, web: Any) -> Any:
    """Say how large the page is, and return the first page."""
    talk.send('{"size":[60,40]}')
    return web.page(talk)


def ending(talk: Any, said: str = "", times: int = 1, never: str = "never shown") -> int:
    """Say something so many times, and return the code with which the talk ends."""
    try:
        for _ in range(times if said else 0):
            talk.send(said)
        while True:
            assert never not in talk.recv(timeout=15)
    except ConnectionClosed as ended:
        return ended.rcvd.code if ended.rcvd else 0


def test_a_page_of_another_site_or_of_none_may_not_talk(served: Any) -> None:
    for origin in ("http://evil.example", "null", f"http://127.0.0.1:{served.port + 1}", "https://127.0.0.1"):
        with pytest.raises(InvalidStatus, match="403"), served.talk(origin):
            pass
    with pytest.raises(InvalidStatus, match="421"), served.talk(additional_headers={"Host": "evil.example"}):
        pass
    assert served.seats() == []


def test_only_the_page_is_served_and_only_asked_for(served: Any) -> None:
    assert served.get("/").status == 200
    assert served.get("/", host="evil.example").status == 421
    assert served.get("/../../etc/passwd").status == 404
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        with socket.create_connection((served.host, served.port), timeout=10) as knock:
            knock.sendall(f"{method} / HTTP/1.1\r\nHost: {served.host}:{served.port}\r\n\r\n".encode())
            answer = knock.makefile("rb").readline()
        assert not answer or answer.startswith(b"HTTP/1.1 4"), (method, answer)


def test_nothing_that_a_stranger_says_leads_out(served: Any, web: Any, home: Path) -> None:
    before = everything(home)
    with served.talk() as talk:
        first = sized(talk, web)
        assert "Which two long clubs" in web.text(first)
        time.sleep(0.4)
        for said in NONSENSE:
            talk.send(said)
        talk.send(b"\x00\x01M")
        for key in ("Escape", "Tab", "q", "Q", "PageDown", "Delete", "ArrowUp"):
            talk.send(json.dumps({"key": key}))
        talk.send('{"size":[60,40]}')
        shown = web.page(talk)
        assert "Which two long clubs" in web.text(shown)
        time.sleep(0.4)
        talk.send(json.dumps({"press": "start", "page": shown["page"]}))
        web.until(lambda: "right-handed or left-handed" in web.text(web.page(talk)))
    assert everything(home) == before


def test_what_is_said_of_a_page_that_has_gone_is_not_taken_for_the_one_after(served: Any, web: Any) -> None:
    with served.talk() as talk:
        first = sized(talk, web)
        time.sleep(0.4)
        talk.send(json.dumps({"press": "start", "page": first["page"]}))
        second = web.page(talk)
        while "right-handed" not in web.text(second):
            second = web.page(talk)
        time.sleep(0.4)
        talk.send(json.dumps({"press": "over", "page": first["page"]}))
        talk.send(json.dumps({"press": "why", "page": second["page"]}))
        third = web.page(talk)
        while third["page"] == second["page"]:
            third = web.page(talk)
        assert "Why we ask" in web.text(third)


def test_each_browser_has_a_process_of_its_own_which_goes_with_it(served: Any, web: Any) -> None:
    web.until(lambda: not served.seats())
    with served.talk() as one:
        first = sized(one, web)
        with served.talk() as other:
            sized(other, web)
            assert len(served.seats()) == 2
            time.sleep(0.3)
            one.send(json.dumps({"press": "start", "page": first["page"]}))
            web.until(lambda: "right-handed" in web.text(web.page(one)))
            other.send('{"size":[61,40]}')
            assert "right-handed" not in web.text(web.page(other))
        web.until(lambda: len(served.seats()) == 1)
    web.until(lambda: not served.seats())


def test_somebody_who_says_too_much_at_once_is_sent_away(served: Any) -> None:
    with served.talk() as talk:
        assert ending(talk, '{"touched":true}', 2000) == 4003


def test_something_too_long_is_not_even_read(served: Any, web: Any) -> None:
    with served.talk() as talk:
        assert ending(talk, "x" * 5000) == 1009, "too big"
    web.until(lambda: not served.seats())


def test_a_seat_that_breaks_or_is_killed_tells_its_page_to_begin_afresh(served: Any, web: Any) -> None:
    with served.talk() as talk:
        sized(talk, web)
        os.kill(served.seats()[0], signal.SIGKILL)
        assert ending(talk) == 4002
    web.until(lambda: not served.seats())


def test_the_pin_typed_in_a_browser_closes_the_kiosk(home: Path, web: Any) -> None:
    served = web.Served(home)
    try:
        with served.talk() as other, served.talk() as talk:
            sized(other, web)
            sized(talk, web)
            time.sleep(0.4)
            talk.send('{"press":"staff","page":0}')
            web.until(lambda: "Staff only" in web.text(web.page(talk)))
            time.sleep(0.4)
            for digit in web.PIN:
                talk.send(json.dumps({"key": digit}))
            talk.send('{"key":"Enter"}')
            for one in (talk, other):
                assert ending(one, never=web.PIN) == 4000
        assert served.process.wait(15) == 0
        assert served.process.stderr is not None
        assert served.process.stderr.read() == ""
    finally:
        served.close()


def test_a_server_that_is_killed_leaves_no_seat_behind(home: Path, web: Any) -> None:
    served = web.Served(home)
    with served.talk() as talk:
        sized(talk, web)
        seats = served.seats()
        served.process.kill()
        served.process.communicate(timeout=10)
        web.until(lambda: not any(_runs(seat) for seat in seats))


def _runs(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False
