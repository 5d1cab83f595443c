"""The trainer's screens: cases, predictions, the trace step by step, exercises, the map, edits, the class."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from rules.fitting import House
    from rules.lessons.case import Case
    from rules.units import System


def open_trainer(
    cases: Sequence[Case], house: House, class_folder: Path | None, *, units: System = "imperial",
    rules: Path | None = None,
) -> int:  # fmt: skip
    """Open the trainer's screen over cases and return the exit status.

    `class_folder` is where the class is kept, None where no class is open; `rules` is the folder of rules
    that the house was loaded with. Raises what went wrong inside.
    """
    from interview.screens.trainer.app import TrainerApp
    from interview.screens.trainer.desk import TeachingDesk

    app = TrainerApp(TeachingDesk.of(cases, house, class_folder, units, rules))
    status = app.run()
    if app.fault is not None:
        raise app.fault
    return status or 0
