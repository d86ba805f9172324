"""The interface for programs as one application, and its description."""

from typing import Any

from fastapi import FastAPI
from fastapi.routing import APIRoute
from starlette.types import ASGIApp

from gudgeon import __version__
from gudgeon.web.api import book, pairing, questions, sums, worked_out, writing
from gudgeon.web.api.description import ABOUT, TAGS, in_plain_words
from gudgeon.web.api.gate import Gate
from gudgeon.web.api.refusals import handle_errors
from gudgeon.web.desk import Desk

PARTS = tuple(part.ROUTER for part in (questions, worked_out, book, writing, sums, pairing))


def application(desk: Desk) -> ASGIApp:
    """Everything under /api at one desk."""
    return Gate(described(desk))


def described(desk: Desk | None) -> FastAPI:
    """The operations; without a desk for their description alone."""
    app = FastAPI(
        title="Gudgeon",
        version=__version__,
        description=ABOUT,
        openapi_url="/api/openapi.json",
        openapi_tags=TAGS,
        docs_url=None,
        redoc_url=None,
        redirect_slashes=False,
        generate_unique_id_function=_name,
        separate_input_output_schemas=False,
    )
    app.state.desk = desk
    for part in PARTS:
        app.include_router(part)
    operations = [one for part in PARTS for one in part.routes if isinstance(one, APIRoute)]
    handle_errors(app, operations=operations)
    made = app.openapi

    def openapi() -> dict[str, Any]:
        if app.openapi_schema is None:
            app.openapi_schema = in_plain_words(made())
        return app.openapi_schema

    app.openapi = openapi  # type: ignore[method-assign]  # the way that the library asks for
    return app


def _name(route: APIRoute) -> str:
    return route.name.replace("_", "-")
