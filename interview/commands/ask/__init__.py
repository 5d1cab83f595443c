"""`turfpair ask`: the interview line by line, in plain text, for screen readers, dumb terminals and pipes."""

from __future__ import annotations

import os
from argparse import ArgumentParser, Namespace
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import BAD_INPUT, DONE, INTERRUPTED

if TYPE_CHECKING:
    from interview.commands.ask.lines import Lines
    from interview.commands.ask.talk import LineTalk
    from interview.store import Draft
    from rules.fitting import House


def configure(parser: ArgumentParser) -> None:
    """Add what `ask` takes."""
    parser.add_argument(
        "session", nargs="?", metavar="SESSION", help="a path, an id or a ticket code; none begins one"
    )
    parser.add_argument("--new", metavar="ID", help="begin a session under this id")
    parser.add_argument("--voice", choices=("fitter", "customer"), help="whom the words are for")
    parser.add_argument(
        "--in-place", action="store_true", help="change a file outside the store itself, not a copy"
    )


def run(args: Namespace) -> int:
    """Talk, keep what was said, and tell what follows from it."""
    from interview.commands.ask.lines import Lines
    from interview.commands.ask.talk import LineTalk
    from interview.commands.ended import Ended, ended_by_signals
    from interview.conversation import Conversation
    from interview.session import overrides_of

    home = house(args)
    draft = _draft(args, home)
    if args.voice:
        draft.session = replace(draft.session, voice=args.voice)
    if args.units:
        draft.session = replace(draft.session, units=args.units)
    lines = Lines()
    with overrides_of(draft.file):
        talk = LineTalk(Conversation.of(home.for_session(draft.id)), draft, lines, draft.session.units)

    try:
        with ended_by_signals():
            lines.say(talk.conversation.wording.say("ask.welcome", draft.session.voice))
            if talk.run() == "done":
                _tell_outcome(talk, lines)
            return DONE if _tell_kept(talk, lines) else BAD_INPUT
    except KeyboardInterrupt as stop:
        _break_off(talk, lines)
        return 128 + stop.number if isinstance(stop, Ended) else INTERRUPTED
    except OSError:  # nobody reads on, or the window is gone
        _keep_somewhere(talk)
        raise


def _break_off(talk: LineTalk, lines: Lines) -> None:
    """Keep what was said last, and tell where, if there is still anybody to tell."""
    talk.keep_all()
    try:
        lines.say()
        _tell_kept(talk, lines)
    except OSError:
        _keep_somewhere(talk)


def _keep_somewhere(talk: LineTalk) -> None:
    """Keep what is in memory only, wherever it can be, without a word."""
    from interview.store import rescue

    if talk.trouble:
        rescue(talk.draft, talk.marked)


def _draft(args: Namespace, home: House) -> Draft:
    """Open the session that was named, or begin one."""
    from interview.commands.errors import UsageProblem
    from interview.session import begin, new_id

    if args.session is not None:
        if args.new is not None:
            raise UsageProblem("ask: give a session to open or --new with an id to begin, not both")
        return store(args).open(args.session, home.base.facts, in_place=args.in_place)
    now = datetime.now(UTC).replace(microsecond=0)
    session = begin(args.new or new_id(now), voice=args.voice or "fitter", created=now)
    return store(args).begin(session)


def _tell_outcome(talk: LineTalk, lines: Lines) -> None:
    """Tell the outcome in the words of the session's voice."""
    lines.say()
    from interview.text import clean
    from interview.views.outcome_text import text

    print(clean(text(talk.state.outcome, talk.state.session.voice, talk.units, lines.width)))


def _tell_kept(talk: LineTalk, lines: Lines) -> bool:
    """Tell where what was said is kept, if anything was; return whether nothing is lost."""
    from interview.broken import one_word
    from interview.session import ticket_code

    said = talk.conversation.wording.say
    lines.say()
    if talk.trouble:
        return _rescued(talk, lines)
    if not os.path.exists(talk.draft.file):
        lines.say(said("ask.nothing_kept"))
        return True
    if talk.draft.moved:
        lines.say(said("ask.kept_in", file=one_word(talk.draft.file)))
        return True
    id = talk.draft.id
    lines.say(said("ask.kept", id=id, ticket=ticket_code(id)))
    return True


def _rescued(talk: LineTalk, lines: Lines) -> bool:
    """Keep what is in memory wherever it can be, or else print it; return whether it is kept."""
    from interview.broken import one_word
    from interview.session import session_text
    from interview.store import rescue

    said = talk.conversation.wording.say
    file = rescue(talk.draft, talk.marked)
    if file is not None:
        lines.say(said("ask.rescued", file=one_word(file)))
        return True
    lines.say(said("ask.not_kept"))
    print(f"\n{session_text(talk.marked)}")
    return False
