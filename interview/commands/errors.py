"""What a person sees when something goes wrong: one sentence, an exit status, never a traceback."""

from __future__ import annotations

import contextlib
import os
import signal
import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from interview.commands.printing import complain
from rules.problems import Problem
from rules.units import UnitError

DONE, NO, BAD_INPUT, BROKEN, INTERRUPTED = 0, 1, 2, 70, 130
"""Exit statuses: done; the answer to a check is "no"; bad usage or input; our own fault; interrupted."""


_BY_A_SIGNAL = 128
"""From here on a status says which signal ended the command (common practice of shells)."""


class UsageProblem(Problem):
    """A command line that cannot be understood."""


def guarded(job: Callable[[], int]) -> int:
    """Do a job and return its exit status; whatever goes wrong becomes one line on the error stream."""
    try:
        return _status(job)
    finally:
        _let_go()


def _status(job: Callable[[], int]) -> int:
    """Do a job and return its exit status, whatever goes wrong."""
    try:
        status = job()
        if sys.stdout is not None and status < _BY_A_SIGNAL:  # who closed the window is told nothing more
            sys.stdout.flush()
    except BrokenPipeError:
        return DONE
    except KeyboardInterrupt as stop:
        return 128 + int(getattr(stop, "number", signal.SIGINT))
    except SystemExit as leaving:
        return _status_of(leaving)
    except (Problem, UnitError) as problem:
        return _say(str(problem), BAD_INPUT)
    except OSError as error:
        return _say(_file_sentence(error), BAD_INPUT)
    except Exception as error:
        return _say(_own_fault(error), BROKEN)
    return status


def _say(sentence: str, status: int) -> int:
    """Print one line on the error stream, with nothing in it that could steer a terminal."""
    with contextlib.suppress(OSError):  # when nobody is listening, the exit status still tells
        complain(sentence)
    return status


def _status_of(leaving: SystemExit) -> int:
    if leaving.code is None or isinstance(leaving.code, int):
        return leaving.code or DONE
    return _say(str(leaving.code), BAD_INPUT)


def _let_go() -> None:
    """Send what nobody can be given any more to nowhere: the interpreter would complain of it as it ends."""
    for stream in (sys.stdout, sys.stderr):
        try:
            if stream is not None:
                stream.flush()
        except (OSError, ValueError):
            with contextlib.suppress(OSError, ValueError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _file_sentence(error: OSError) -> str:
    """Say which file could not be used and why, in the words of the operating system."""
    reason = (error.strerror or "it cannot be used").lower()
    if error.filename is None:
        return f"the output could not be written: {reason}; make room or choose another place"
    return f"{error.filename}: {reason}; check the name and who may use it"


def _own_fault(error: Exception) -> str:
    """Log a fault of ours and say where; the log holds places in the program, never values or answers."""
    from interview.folders import state_folder

    kept = _log(error, state_folder() / "log")
    where = f"the place is noted in {kept}" if kept else "the place could not be noted"
    return f"something went wrong inside Turfpair ({type(error).__name__}); what was saved is safe, {where}"


def _log(error: Exception, folder: Path) -> Path | None:
    """Write the places a fault went through; the message is left out, since it may repeat an answer."""
    import traceback

    frames = traceback.extract_tb(error.__traceback__)
    lines = [f"{type(error).__module__}.{type(error).__qualname__}"]
    lines += [f"{frame.filename}:{frame.lineno} in {frame.name}" for frame in frames]
    file = folder / f"fault-{datetime.now():%Y%m%d-%H%M%S}-{os.getpid()}.txt"
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    except OSError:
        return None
    return file
