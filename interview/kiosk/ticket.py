"""The ticket: what is kept of a visit, only with consent, only for a while, and never under a name."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING, NamedTuple

from interview.session import Session, begin, ticket_code, with_record
from interview.session.recorded import with_run
from interview.store import local_day

if TYPE_CHECKING:
    from interview.store import Store
    from rules.fitting import Outcome

KEPT_FOR = timedelta(days=30)
"""How long a ticket is kept unless the golfer comes to the fitter before."""
_LONG_AGO = datetime.min.replace(tzinfo=UTC)


class Ticket(NamedTuple):
    """What a golfer takes along."""

    code: str
    """Eight characters, such as K7M4-Q2XD; they say nothing of the golfer."""
    until: date
    """The last day on which the fitter can open it."""


def last_day(now: datetime) -> date:
    """Return the last day of a ticket that is made now, by the calendar where the kiosk stands."""
    return date.fromordinal(min(date.max.toordinal(), local_day(now).toordinal() + KEPT_FOR.days))


def keep(store: Store, session: Session, outcome: Outcome, now: datetime) -> Ticket:
    """Write a visit and what was decided on it to the store: nothing of it was on the disk before.

    Raises CannotKeep, Busy or AlreadyThere; then nothing is kept.
    """
    until = last_day(now)
    draft = store.begin(begin(session.id, voice="customer", units=session.units, created=session.created))
    ran = with_run(session, session, outcome)
    kept = draft.save(with_record(ran, consent=True, expires=until))
    return Ticket(ticket_code(kept.id), until)


def purge(store: Store, now: datetime) -> int:
    """Delete the tickets whose time is over and return how many; nothing else in the store is touched."""
    return len(store.purge(_LONG_AGO, local_day(now)))
