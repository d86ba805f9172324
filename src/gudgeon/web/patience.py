"""A connection that says nothing is not waited for: else a handful of silent ones keep everybody else out."""

import asyncio
from typing import Any

from uvicorn.protocols.http.h11_impl import H11Protocol

SILENT_S = 20.0
"""How long a request may take until its head is there; a page over the worst line of a garage takes a tenth."""


class Patient(H11Protocol):
    """The line to one browser, hung up when no whole head of a request comes in time."""

    def __init__(self, *said: Any, **named: Any) -> None:
        super().__init__(*said, **named)
        self._hung_up: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Wait for the first request."""
        super().connection_made(transport)
        self._wait()

    def data_received(self, data: bytes) -> None:
        """Take what came, and wait for the rest of a head that has been begun."""
        super().data_received(data)
        if self._answers():
            self._stop_waiting()
        elif self._hung_up is None:
            self._wait()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget a line that is gone."""
        self._stop_waiting()
        super().connection_lost(exc)

    def _answers(self) -> bool:
        """Whether a request is being answered."""
        return self.cycle is not None and not self.cycle.response_complete

    def _wait(self) -> None:
        self._hung_up = self.loop.call_later(SILENT_S, self._hang_up)

    def _stop_waiting(self) -> None:
        if self._hung_up is not None:
            self._hung_up.cancel()
            self._hung_up = None

    def _hang_up(self) -> None:
        self._hung_up = None
        if not self._answers() and not self.transport.is_closing():
            self.transport.close()
