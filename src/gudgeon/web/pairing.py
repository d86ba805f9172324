"""Letting a device in: it shows a code that was made for it, once, and keeps a secret from then on."""

from datetime import timedelta

from starlette.responses import Response

from gudgeon.bench.context import clock
from gudgeon.bench.record import writer_here
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, NotPaired, go, own_address
from gudgeon.web.devices import CodeRefused
from gudgeon.web.knocks import TooManyCodes
from gudgeon.web.security import cookie_name

KEPT_FOR = timedelta(days=365)
NOT_TYPED = frozenset(("entry", "basis", "chain", "seal", "back", "knew", "ago"))
"""What a form carries of its own; nobody typed it."""


def ask(desk: Desk, asked: Asked) -> Response:
    """Pair a device: where to type the code. The address that opened the browser of this machine does it at once."""
    if (
        asked.seen.holder is not None
    ):  # each start of the server opens the browser with a code; one pairing does
        return go(_onward(asked))
    # Wrong ones are not counted here: a strange page can have a browser ask, and would keep everybody out. Such a code
    # is too long to be guessed, and of a short one nothing is told.
    code = asked.query.get("code", "")
    if code and asked.seen.from_here:
        good, here = desk.door.devices.waits_for(code, now=clock())
        if good and here:
            writer = writer_here()
            return _paired(desk, asked, code=code, name=f"browser of {writer.device}", who=writer.who)
    return _page(desk, asked)


def pair(desk: Desk, asked: Asked) -> Response:
    """Put a device on the list, if its code is waited for."""
    said = asked.form
    now = clock()
    try:
        desk.door.knocks.look(now)
        return _paired(
            desk, asked, code=said.get("code", ""), name=said.get("name", ""), who=said.get("who", "")
        )
    except CodeRefused as error:
        desk.door.knocks.wrong(now)
        return _page(desk, asked, status=403, error=error)
    except TooManyCodes as error:
        return _page(desk, asked, status=429, error=error)
    except GudgeonError as error:
        return _page(desk, asked, status=422, error=error)


def stranger(desk: Desk, asked: Asked, error: NotPaired) -> Response:
    """What a device that is not paired gets instead of a page: why, and where its code goes."""
    return _page(desk, asked, status=403, error=error)


def _paired(desk: Desk, asked: Asked, *, code: str, name: str, who: str) -> Response:
    _, kept = desk.door.devices.pair(code, name=name, who=who, now=clock())
    answer = go(_onward(asked))
    answer.set_cookie(
        cookie_name(secure=asked.seen.secure),
        kept,
        max_age=int(KEPT_FOR.total_seconds()),
        secure=asked.seen.secure,
        httponly=True,
        samesite="strict",
    )
    return answer


def _onward(asked: Asked) -> str:
    return own_address((asked.form if asked.posted else asked.query).get("to", ""), otherwise="/")


def _page(desk: Desk, asked: Asked, *, status: int = 200, error: GudgeonError | None = None) -> Response:
    on_the_way = asked.address if isinstance(error, NotPaired) and not asked.posted else _onward(asked)
    said = asked.form if asked.address == "/pair" and asked.posted else asked.query
    return desk.bare(
        "pair.html",
        asked=asked,
        status=status,
        error=error,
        to=on_the_way,
        code=said.get("code", ""),
        name=said.get("name", ""),
        who=said.get("who", "") or (writer_here().who if asked.seen.from_here else ""),
        typed=_typed(asked) if isinstance(error, NotPaired) else (),
        certificate=desk.door.certificate,
    )


def _typed(asked: Asked) -> tuple[str, ...]:
    """What was typed into a form that a stranger sent: it goes back to him, so that it is not lost."""
    return tuple(
        said for name, said in asked.form.items() if said.strip() and name not in NOT_TYPED and asked.posted
    )


ADDRESSES = (
    Address("/pair", ask, open=True),
    Address("/pair", pair, methods=("POST",), most_bytes=4096, most_fields=8, open=True),
)
