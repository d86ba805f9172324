"""The interface for programs among the pages: it is built when it is asked first, as no page needs it."""

from threading import Lock

from starlette.concurrency import run_in_threadpool
from starlette.routing import BaseRoute, Match
from starlette.types import ASGIApp, Receive, Scope, Send

from gudgeon.web.api.saying_no import is_for_programs
from gudgeon.web.desk import Desk


class ProgramsRoute(BaseRoute):
    """Everything under /api, whatever its method: what is not there is refused in the shape for programs too."""

    def __init__(self, desk: Desk) -> None:
        self._desk, self._lock = desk, Lock()
        self._built: ASGIApp | None = None

    def matches(self, scope: Scope) -> tuple[Match, Scope]:
        """Whether the address is one for programs."""
        if scope["type"] == "http" and is_for_programs(scope["path"]):
            return Match.FULL, {}
        return Match.NONE, {}

    async def handle(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer it, after building what answers."""
        built = self._built
        if built is None:
            built = await run_in_threadpool(self.build)
        await built(scope, receive, send)

    def build(self) -> ASGIApp:
        """What answers under /api; built once."""
        with self._lock:
            built = self._built
            if built is None:
                from gudgeon.web.api.application import application

                built = self._built = application(self._desk)
            return built
