"""The server on the loopback interface; it ends with the process."""

import socket
from collections.abc import Callable
from typing import Any

from waitress.server import create_server

from guidegen.errors import RequestError
from guidegen.preview.application import Application
from guidegen.preview.rounds import Rounds

LIMITS: dict[str, Any] = {
    "threads": 6, "connection_limit": 1000, "channel_timeout": 30, "cleanup_interval": 10, "max_request_header_size": 16_384,
    "max_request_body_size": 1024, "ident": None, "expose_tracebacks": False, "clear_untrusted_proxy_headers": True,
}
"""Connections that a slow client holds open cost a place among many, not a thread."""


def serve(rounds: Rounds, port: int, *, ready: Callable[[int], None]) -> None:
    """Serve until the process is interrupted; ``ready`` is told the port, also where 0 asked for a free one.

    Raises ``RequestError`` where the port is taken.
    """
    with socket.socket() as listener:
        try:
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            listener.bind(("127.0.0.1", port))
            listener.listen(1024)
        except OSError as error:
            raise RequestError(f"port {port}: came {error.strerror or error}, expected a free one; another preview may run there "
                               "(--port chooses another)") from error
        taken = int(listener.getsockname()[1])
        server = create_server(Application(rounds, taken), sockets=[listener], **LIMITS)
        ready(taken)
        try:
            server.run()
        finally:
            server.close()
