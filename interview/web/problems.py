"""What keeps the browser form from being served, each in one sentence."""

from __future__ import annotations

import errno

from interview.text import one_line
from rules.problems import Problem


class WebProblem(Problem):
    """The browser form of the kiosk cannot be served as it was asked for."""

    @classmethod
    def no_extra(cls) -> WebProblem:
        """The package that serves a browser is not installed."""
        return cls(
            "kiosk: the browser form needs the package 'websockets', which the extra 'web' installs: "
            "pip install '.[web]' in Turfpair's own folder"
        )

    @classmethod
    def not_an_address(cls, host: str) -> WebProblem:
        """What was named is no address of one machine."""
        return cls(
            f"kiosk: --host wants one address of this machine, such as 127.0.0.1, not '{one_line(host, 40)}'"
        )

    @classmethod
    def on_a_network(cls, host: str) -> WebProblem:
        """Others could reach it, and nobody said that they may."""
        return cls(
            f"kiosk: whoever shares a network with {host} could open the kiosk there, unencrypted; "
            "add --network if that is meant"
        )

    @classmethod
    def cannot_listen(cls, host: str, port: int, error: OSError) -> WebProblem:
        """The operating system does not let it listen there."""
        if error.errno == errno.EADDRINUSE:
            return cls(f"kiosk: another program already uses port {port}; choose another with --port")
        if error.errno in (errno.EACCES, errno.EPERM):
            return cls(f"kiosk: this account may not use port {port}; choose one above 1023 with --port")
        if error.errno == errno.EADDRNOTAVAIL:
            return cls(f"kiosk: this machine has no address {host}; name one that it has with --host")
        why = (error.strerror or "it cannot be used").lower()
        return cls(f"kiosk: port {port} of {host} cannot be used: {why}")
