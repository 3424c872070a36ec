"""The session for a route."""

from __future__ import annotations

from typing import Annotated, cast

from fastapi import Depends, Request

from cleatwright.web.session import Session


def _session(request: Request) -> Session:
    return cast("Session", request.app.state.session)


TheSession = Annotated[Session, Depends(_session)]
