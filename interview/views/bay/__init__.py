"""What the bay shows, frozen: the talk, the standing of the candidates, and the decisions so far."""

from __future__ import annotations

from interview.views.bay.parts import PartsView, parts_view
from interview.views.bay.questions import AskView, QuestionView, TalkView, TopicView, talk_view
from interview.views.bay.standing import CandidateView, StandingView, standing_view

__all__ = [
    "AskView",
    "CandidateView",
    "PartsView",
    "QuestionView",
    "StandingView",
    "TalkView",
    "TopicView",
    "parts_view",
    "standing_view",
    "talk_view",
]
