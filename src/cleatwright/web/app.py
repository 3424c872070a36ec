"""The application: routes behind the guard, and the built pages."""

from __future__ import annotations

from pathlib import Path

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp
from starlette.websockets import WebSocket

from cleatwright import __version__
from cleatwright.base.errors import (
    ChangedMeanwhileError,
    CleatwrightError,
    FaultError,
    InputError,
    KernelError,
)
from cleatwright.base.visible import visible
from cleatwright.web.guard import Guard
from cleatwright.web.routes import (
    choices,
    document,
    holders,
    hung,
    make,
    outside,
    plans,
    setting_out,
    settings,
    tools,
    wall,
)
from cleatwright.web.rows.row import FaultRow, fault_row
from cleatwright.web.session import Session

PAGES = Path(__file__).parent / "pages"


def make_api(session: Session) -> FastAPI:
    """Return the interface without the guard, for its schema and for tests of its rows."""
    api = FastAPI(
        title="Cleatwright",
        version=__version__,
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        responses={409: {"model": FaultRow}, 422: {"model": FaultRow}, 500: {"model": FaultRow}},
    )
    api.state.session = session
    every = (
        document,
        tools,
        holders,
        wall,
        plans,
        choices,
        make,
        hung,
        settings,
        setting_out,
        outside,
    )
    for routes in (one.routes for one in every):
        api.include_router(routes, prefix="/api")

    @api.exception_handler(CleatwrightError)
    def fault(_: Request, error: CleatwrightError) -> JSONResponse:
        # what the program itself did wrong; anything else the person can mend
        status = 500 if isinstance(error, FaultError | KernelError) else 422
        if isinstance(error, ChangedMeanwhileError):
            status = 409
        return JSONResponse(fault_row(error).model_dump(), status)

    @api.exception_handler(RequestValidationError)
    def unread(_: Request, error: RequestValidationError) -> JSONResponse:
        where = sorted({str(one["loc"][-1]) for one in error.errors() if one["loc"]})
        wrong = InputError(
            f"What the page sent cannot be read ({visible(', '.join(where))})",
            todo="Load the page again, and write another value",
        )
        return JSONResponse(fault_row(wrong).model_dump(), 422)

    @api.websocket("/api/live")
    async def live(socket: WebSocket) -> None:
        await session.hub.serve(socket)

    if PAGES.is_dir():
        api.mount("/", StaticFiles(directory=PAGES, html=True), name="pages")
    return api


def make_app(session: Session, *, hosts: tuple[str, ...], token: str) -> ASGIApp:
    """Return the application behind its guard.

    Args:
        session: What is open.
        hosts: The names under which it may be asked, each with its port.
        token: The token of this start.
    """
    return Guard(make_api(session), hosts=hosts, token=token)
