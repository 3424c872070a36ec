"""What happens, told to every page that is open."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Mapping
from contextlib import suppress
from threading import Lock

from starlette.websockets import WebSocket, WebSocketDisconnect

MOST_WAITING = 200


class Hub:
    """Sends events to all pages; any thread may tell one.

    A page that does not keep up loses events, and is told to ask for everything anew.
    """

    def __init__(self) -> None:
        self._queues: dict[asyncio.Queue[str], asyncio.AbstractEventLoop] = {}
        self._lock = Lock()

    def tell(self, event: Mapping[str, object]) -> None:
        """Send an event to all pages."""
        text = json.dumps(event)
        with self._lock:
            queues = list(self._queues.items())
        for queue, loop in queues:
            # a loop that is closing has no page any more
            with suppress(RuntimeError):
                loop.call_soon_threadsafe(_put, queue, text)

    async def serve(self, socket: WebSocket) -> None:
        """Send events to one page until it leaves."""
        await socket.accept()
        queue: asyncio.Queue[str] = asyncio.Queue(MOST_WAITING)
        with self._lock:
            self._queues[queue] = asyncio.get_running_loop()
        reading = asyncio.create_task(_until_it_leaves(socket))
        try:
            while not reading.done():
                waiting = asyncio.create_task(queue.get())
                await asyncio.wait({waiting, reading}, return_when=asyncio.FIRST_COMPLETED)
                if not waiting.done():
                    waiting.cancel()
                    break
                with suppress(WebSocketDisconnect, RuntimeError):
                    await socket.send_text(waiting.result())
        finally:
            reading.cancel()
            with self._lock:
                self._queues.pop(queue, None)


def _put(queue: asyncio.Queue[str], text: str) -> None:
    if queue.full():
        while not queue.empty():
            queue.get_nowait()
        queue.put_nowait(json.dumps({"event": "reload"}))
        return
    queue.put_nowait(text)


async def _until_it_leaves(socket: WebSocket) -> None:
    with suppress(WebSocketDisconnect, RuntimeError):
        while True:
            await socket.receive_text()
