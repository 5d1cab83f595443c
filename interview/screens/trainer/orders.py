"""What can be done on each of the trainer's screens; keys, help and the list of orders are made from it."""

from __future__ import annotations

from interview.screens.kit.orders import Order

_HELP = Order("lesson.help", "f1", "help", "help", "Shows every key of this screen.", shown=True)
_BACK = Order("lesson.leave", "escape", "leave", "back", "Goes back to where you came from.", shown=True)
_ASIDE = Order("lesson.aside", "tab", "aside", "other pane", "Goes to the other pane and back.")
COMMON = (
    Order("lesson.orders", "f10", "orders", "all orders", "Lists everything that can be done here."),
    Order("lesson.look", "f11", "app.look", "sun or dusk", "Changes between dark ink and pale ink."),
    Order("lesson.pause", "ctrl+z", "app.suspend_process", "to the shell", "Stops here; fg goes on."),
    Order("lesson.quit", "ctrl+q", "app.quit", "leave", "Leaves; attempts are kept as they are made."),
)
"""What every screen of the trainer has besides its own."""

CASES = (
    _HELP,
    Order("cases.open", "enter", "open", "predict", "Opens the case and lets it be predicted.", shown=True),
    Order("cases.exercises", "f3", "exercises", "exercises", "Sets exercises.", shown=True),
    Order("cases.chart", "f4", "chart", "map", "Shows which facts drive which decisions.", shown=True),
    Order("cases.edit", "f5", "edit", "edit rules", "Tries a changed rule on a copy.", shown=True),
    Order("cases.roll", "f6", "roll", "class", "Opens the class: who tried what, and how well.", shown=True),
    Order("cases.notes", "f2", "notes", "notes", "Shows or covers the teaching notes."),
    Order("cases.units", "f7", "units", "yards or metres", "Changes how quantities are shown."),
    _ASIDE,
    Order("cases.leave", "escape", "leave", "to the list", "Goes back from the note to the list."),
)
"""The list of cases."""

PREDICT = (
    _HELP,
    Order("predict.pick", "enter", "pick", "predict", "Predicts the decision, then its reasons.", shown=True),
    Order("predict.why", "f2", "reasons", "reasons", "Names the facts that should drive it.", shown=True),
    Order("predict.reveal", "f5", "reveal", "reveal", "Marks what is predicted.", shown=True),
    Order("predict.back", "delete", "unpick", "take back", "Takes a prediction back.", shown=True),
    _BACK,
    _ASIDE,
)
"""A case that is predicted."""

REVEAL = (
    _HELP,
    Order("reveal.walk", "enter", "walk", "walk", "Walks the decision, one rule at a time.", shown=True),
    Order("reveal.whole", "f2", "whole", "whole walk", "Walks every decision, one after another."),
    Order("reveal.change", "f3", "change", "change", "Changes one answer; watch it move.", shown=True),
    Order("reveal.flip", "f4", "flip", "flip", "Lets the flip be found by guessing.", shown=True),
    Order("reveal.edit", "f5", "edit", "edit rules", "Tries a changed rule on this golfer.", shown=True),
    _BACK,
    _ASIDE,
)
"""A prediction that is marked."""

STEPS = (
    _HELP,
    Order("steps.on", "right,enter", "step(1)", "on", "Goes to the next rule.", shown=True),
    Order("steps.back", "left", "step(-1)", "before", "Goes to the rule before.", shown=True),
    Order("steps.other", "f2", "decision(1)", "decision", "Goes to the next decision.", shown=True),
    Order("steps.before", "f3", "decision(-1)", "decision before", "Goes to the decision before."),
    Order("steps.edit", "f5", "edit", "edit rule", "Tries this rule changed, on a copy.", shown=True),
    _BACK,
    Order("steps.first", "home", "end(0)", "first", "Goes to the first rule of all."),
    Order("steps.last", "end", "end(1)", "last", "Goes to the last rule of all."),
)
"""The walk through a decision."""

CHANGE = (
    _HELP,
    Order("change.answer", "enter", "answer", "change", "Changes the answer the cursor is on.", shown=True),
    Order("change.flip", "f4", "flip", "flip", "Lets its flip be found by guessing.", shown=True),
    Order("change.all", "f2", "everything", "all", "Shows the unanswered too.", shown=True),
    Order("change.undo", "delete", "undo", "as it was", "Puts the answer back as it was.", shown=True),
    _BACK,
    _ASIDE,
)
"""One answer changed."""

FLIP = (
    _HELP,
    Order("flip.try", "enter", "guess", "try", "Tries the value that is typed.", shown=True),
    Order("flip.none", "f2", "none", "nothing flips", "Guesses that no value changes it.", shown=True),
    Order("flip.tell", "f5", "show_answer", "tell", "Marks the last guess, and tells.", shown=True),
    Order("flip.next", "f3", "next", "another fact", "Takes another fact to guess about.", shown=True),
    _BACK,
)
"""The hunt for a flip."""

EXERCISE = (
    _HELP,
    Order("exercise.next", "enter", "next", "next", "Goes to the next exercise.", shown=True),
    Order("exercise.kinds", "f2", "kinds", "other kind", "Chooses which kind is set.", shown=True),
    Order("exercise.due", "f6", "due", "what is due", "Sets what is due to be repeated.", shown=True),
    _BACK,
)
"""Exercises; digits answer them."""

CHART = (
    _HELP,
    Order("chart.influence", "f2", "influence", "influence", "Changes it in every case.", shown=True),
    Order("chart.rule", "f5", "edit", "edit rule", "Tries the chosen rule changed.", shown=True),
    Order("chart.aside", "tab", "aside", "rules", "Goes to the rules and back.", shown=True),
    _BACK,
)
"""The map of the rule base."""

EDIT = (
    _HELP,
    Order("edit.find", "f3", "find", "other rule", "Takes another rule or value.", shown=True),
    Order("edit.off", "f7", "off", "off or on", "Switches the rule off, or on again.", shown=True),
    Order("edit.revert", "f8", "revert", "as ours", "Puts the rule back as it is in ours.", shown=True),
    Order("edit.save", "f6", "save", "save as", "Saves the copy as a folder of its own.", shown=True),
    _BACK,
    Order("edit.case", "f4", "case", "other golfer", "Looks at the effect on another golfer."),
    _ASIDE,
)
"""Rules changed on a copy."""

ROLL = (
    _HELP,
    Order("roll.sit", "enter", "sit", "at the keys", "Lets attempts count for this trainee.", shown=True),
    Order("roll.add", "f2", "add", "add", "Adds a trainee.", shown=True),
    Order("roll.due", "f3", "due", "what is due", "Sets what he has to repeat.", shown=True),
    Order("roll.export", "f6", "export", "summary", "Writes the summary of the class.", shown=True),
    _BACK,
    Order("roll.rename", "f4", "rename", "rename", "Changes a name."),
    Order("roll.remove", "delete", "remove", "take out", "Takes a trainee out of the class."),
    Order("roll.open", "f9", "open", "open a class", "Opens a class, or begins one, in a folder."),
    _ASIDE,
)
"""The class."""
