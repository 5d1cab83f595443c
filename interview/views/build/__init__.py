"""The build of two clubs as the bench, the sheets and the screens show it: parts, sums, readings, rules."""

from __future__ import annotations

from interview.views.build.club import BuildClub
from interview.views.build.face import FaceView, face_view
from interview.views.build.view import BuildView, build_view

__all__ = ["BuildClub", "BuildView", "FaceView", "build_view", "face_view"]
