"""The server sends an answer at once.

Oracle: the option of the system by which a connection waits for nothing before it sends (RFC 9293,
section 3.7.4, on what is turned off by it; from memory).
"""

from __future__ import annotations

import asyncio
import socket
from concurrent.futures import ThreadPoolExecutor

from cleatwright.web.serving import listening_on


class _Accepted(asyncio.Protocol):
    def __init__(self, told: asyncio.Future[int]) -> None:
        self._told = told

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        found = transport.get_extra_info("socket")
        self._told.set_result(found.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
        transport.close()


async def _accepted() -> int:
    loop = asyncio.get_running_loop()
    told: asyncio.Future[int] = loop.create_future()
    listening = listening_on(0)
    port = listening.getsockname()[1]
    server = await loop.create_server(lambda: _Accepted(told), sock=listening)
    async with server:
        _, writer = await asyncio.open_connection("127.0.0.1", port)
        found = await asyncio.wait_for(told, 10)
        writer.close()
    return found


def test_the_body_of_an_answer_does_not_wait_for_its_head() -> None:
    # the driver of the browser may have a loop of its own in this thread
    with ThreadPoolExecutor(1) as threads:
        assert threads.submit(lambda: asyncio.run(_accepted())).result() != 0
