"""Who is let in: the page and its two files for whoever names this machine rightly, and nothing else.

A page of another site that is open in the same browser can send requests here. It cannot choose what its
browser says of it: `Host` tells by which name it came (a name of its own that leads here is turned away),
and `Origin` whose page it is (RFC 6454; RFC 6455, 10.2).
"""

from __future__ import annotations

import html
from collections.abc import Mapping
from importlib.resources import files
from ipaddress import ip_address
from typing import NamedTuple

from interview.web.problems import WebProblem

TALK = "/talk"
"""Where the page talks with its seat."""
_FILES = {
    "/": ("index.html", "text/html; charset=utf-8"),
    "/page.css": ("page.css", "text/css; charset=utf-8"),
    "/page.js": ("page.js", "text/javascript; charset=utf-8"),
}
"""All that can be fetched."""
_GUARDS = {
    "Cache-Control": "no-store",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
}
"""What every answer tells the browser: keep nothing, guess nothing, show it in no other page."""


class Answer(NamedTuple):
    """What is answered to a request."""

    status: int
    reason: str
    headers: Mapping[str, str]
    body: bytes


class Place(NamedTuple):
    """Where the kiosk is served."""

    host: str
    port: int

    @property
    def authorities(self) -> frozenset[str]:
        """Return what a browser that was sent here may call this machine: address or name, and port."""
        address = ip_address(self.host)
        names = {f"[{self.host}]" if address.version == 6 else self.host}
        if address.is_loopback:
            names.add("localhost")
        port = "" if self.port == 80 else f":{self.port}"
        return frozenset(f"{name}{port}" for name in names)

    @property
    def origins(self) -> frozenset[str]:
        """Return the origins of our own page."""
        return frozenset(f"http://{one}" for one in self.authorities)

    @property
    def address(self) -> str:
        """Return what is typed into a browser."""
        return f"http://{min(self.authorities - {f'localhost:{self.port}', 'localhost'})}/"


def place(host: str, port: int, *, network: bool = False) -> Place:
    """Return where to serve; WebProblem for what is no address, or is one that others reach unsaid."""
    try:
        address = ip_address("127.0.0.1" if host == "localhost" else host)
    except ValueError:
        raise WebProblem.not_an_address(host) from None
    if address.is_unspecified or address.is_multicast:
        raise WebProblem.not_an_address(host)
    if not (address.is_loopback or network):
        raise WebProblem.on_a_network(str(address))
    return Place(str(address), port)


class Doors:
    """Answers requests from memory: no path of a request ever becomes a path of a file."""

    def __init__(self, at: Place, phrases: Mapping[str, str]) -> None:
        self._at = at
        folder = files("interview.web") / "page"
        self._bodies = {
            path: (folder / name).read_text(encoding="utf-8") for path, (name, _) in _FILES.items()
        }
        for key, phrase in phrases.items():
            self._bodies["/"] = self._bodies["/"].replace(f"{{{key}}}", html.escape(phrase))

    def answer(self, path: str, hosts: list[str], method: str = "GET") -> Answer | None:
        """Return the answer to a request; None for a talk, which goes on."""
        if len(hosts) != 1 or hosts[0].lower() not in self._at.authorities:
            return self._said(421, "Misdirected Request", "This is not the machine that you asked for.")
        if method != "GET":
            return self._said(405, "Method Not Allowed", "This page can only be looked at.")
        if path == TALK:
            return None
        if path not in _FILES:
            return self._said(404, "Not Found", "There is nothing here but the kiosk's own page.")
        return Answer(200, "OK", self._headers(_FILES[path][1]), self._bodies[path].encode())

    def _said(self, status: int, reason: str, sentence: str) -> Answer:
        return Answer(status, reason, self._headers("text/plain; charset=utf-8"), f"{sentence}\n".encode())

    def _headers(self, kind: str) -> dict[str, str]:
        """Return the headers of an answer: its page may load from here, talk to here, and nothing else."""
        talk = " ".join(sorted(f"ws://{one}" for one in self._at.authorities))
        policy = (
            f"default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self' {talk}; "
            "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
        )
        return {**_GUARDS, "Content-Type": kind, "Content-Security-Policy": policy}
