"""The files of ours that never change under one address: the address carries a mark of their content."""

from importlib import resources

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from gudgeon.web.templating import mark_of

FOR_GOOD = "public, max-age=31536000, immutable"
ASKED_AGAIN = "no-cache"


class OwnFiles(StaticFiles):
    """Styles, scripts and signs; a browser keeps for good what it asked for by the right mark."""

    def __init__(self) -> None:
        super().__init__(directory=str(resources.files("gudgeon.web").joinpath("static")))

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, with how long it may be kept."""
        answer = await super().get_response(path, scope)
        if answer.status_code in (200, 304):
            right = scope["query_string"].decode("latin-1") == mark_of(path)
            answer.headers["Cache-Control"] = FOR_GOOD if right else ASKED_AGAIN
        return answer
