"""What can be done in the bay: the one list that keys, help and the list of orders are made from."""

from __future__ import annotations

from interview.screens.kit.orders import Order

BAY = (
    Order("bay.help", "f1", "help", "help", "Shows every key and what it does.", shown=True),
    Order("bay.unknown", "f2", "unknown", "don't know", "Closes the question: it is not known.", shown=True),
    Order("bay.skip", "f3", "skip", "skip", "Passes the question over; it stays open.", shown=True),
    Order("bay.map", "f4", "map", "questions", "Shows every question; a key goes to each.", shown=True),
    Order("bay.side", "f5", "side", "standing, decisions", "Goes to the standing, then to the decisions."),
    Order("bay.take", "f6", "take", "decide it myself", "Takes what is looked at into your own hands."),
    Order("bay.pictures", "f7", "pictures", "pictures", "Shows the next picture."),
    Order("bay.why", "f8", "why", "why", "Gives the reasons of what is looked at.", shown=True),
    Order("bay.sessions", "f9", "sessions", "sessions", "Begins, finds, resumes or copies a session."),
    Order("bay.orders", "f10", "orders", "more", "Lists everything that can be done.", shown=True),
    Order("bay.home", "escape", "home", "back to the line", "Goes back to the line you type on."),
    Order("bay.withdraw", "delete", "withdraw", "take back", "Takes back the answer the cursor is on."),
    Order("bay.go_on", "", "go_on", "go on asking", "Asks what was skipped or cannot matter."),
    Order("bay.rest", "", "rest", "the rest is not known", "Closes what is open, safety apart."),
    Order("bay.note", "", "note", "name or note", "Writes whose fitting this is, to find it by."),
    Order("bay.elsewhere", "", "elsewhere", "keep elsewhere", "Keeps the session in another folder."),
    Order("bay.balls", "f12", "balls", "balls", "Notes the balls of a trial, one key each."),
    Order("bay.papers", "f11", "papers", "sheets", "Shows the sheets and writes them as pages."),
    Order("bay.what_if", "ctrl+t", "what_if", "what if", "Tries other answers on a copy, side by side."),
    Order("bay.keep", "", "keep", "keep for good", "Keeps a ticket for good, with consent."),
    Order("bay.club", "", "club", "a club already owned", "Adds a club that is owned to the ladder."),
    Order("bay.units", "", "units", "yards or metres", "Changes how quantities are shown."),
    Order("bay.look", "", "app.look", "sun or dusk", "Changes between dark ink and pale ink."),
    Order("bay.pause", "ctrl+z", "app.suspend_process", "to the shell", "Stops here; fg goes on."),
    Order("bay.quit", "ctrl+q", "app.quit", "leave", "Leaves; everything is kept."),
)
"""The orders of the bay."""

WHY = (
    Order("why.leave", "escape,f8", "leave", "back", "Goes back to the bay.", shown=True),
    Order("why.why", "1", "look_at(0)", "why", "Shows the ledger of the decision.", shown=True),
    Order("why.why_not", "2", "look_at(1)", "why not", "Shows a rival's ledger beside it.", shown=True),
    Order("why.nearly", "3", "look_at(2)", "nearly", "Shows the rules that kept silent.", shown=True),
    Order("why.moves", "4", "look_at(3)", "what moves it", "Shows what would change it.", shown=True),
    Order("why.rival", "right", "rival(1)", "next rival", "Looks at the next rival."),
    Order("why.rival_before", "left", "rival(-1)", "rival before", "Looks at the rival before."),
    Order("why.take", "f6", "take", "decide it", "Takes the decision into your own hands.", shown=True),
)
"""The orders of the reasons."""

PAPERS = (
    Order("papers.leave", "escape", "leave", "back", "Goes back to the bay.", shown=True),
    Order("papers.golfer", "1", "look_at(0)", "golfer's", "Shows the golfer's sheet.", shown=True),
    Order("papers.workshop", "2", "look_at(1)", "workshop's", "Shows the workshop's sheet.", shown=True),
    Order("papers.write", "f2,f11", "write", "write both", "Writes both sheets as pages.", shown=True),
    Order("papers.folder", "f4", "folder", "folder", "Names another folder for the pages.", shown=True),
)
"""The orders of the sheets."""

WHAT_IF = (
    Order("what_if.leave", "escape", "leave", "drop", "Drops the copy; nothing is changed.", shown=True),
    Order("what_if.keep", "f2", "keep", "keep", "Takes the copy's answers over.", shown=True),
    Order("what_if.undo", "f3", "undo", "undo", "Takes the last change of the copy back.", shown=True),
    Order("what_if.map", "f4", "map", "questions", "Shows every question by its name.", shown=True),
)
"""The orders of a what-if."""

SESSIONS = (
    Order("sessions.new", "f2", "new", "new", "Begins a session.", shown=True),
    Order("sessions.copy", "f3", "copy", "copy", "Copies the session and opens the copy.", shown=True),
    Order("sessions.leave", "escape,f9", "leave", "back", "Goes back to the bay.", shown=True),
)
"""The orders of the list of sessions."""

BALLS = (
    Order("balls.leave", "escape", "leave", "back", "Goes back to the bay.", shown=True),
    Order("balls.words", "f2", "words", "in words", "Notes a ball with carry, side and mark.", shown=True),
    Order("balls.undo", "f3", "undo", "take back", "Takes the last ball back.", shown=True),
    Order(
        "balls.ground",
        "f4",
        "ground",
        "ground",
        "Turf, mat indoors, mat, tee: what balls are hit off.",
        shown=True,
    ),
    Order("balls.club", "f5", "club", "other club", "Lets another club be hit next."),
    Order("balls.evidence", "f8", "evidence", "what they tell", "Holds them against belief.", shown=True),
    Order("balls.more", "f6", "more", "six more", "Asks for six more with each club."),
    Order("balls.join", "f7", "join", "join", "Lets another club join the trial."),
    Order("balls.orders", "f10", "orders", "more", "Lists everything that can be done.", shown=True),
)
"""The orders of a trial; 1 topped, 2 thin, 3 fat and 4 up note a ball, arrows its mark."""
