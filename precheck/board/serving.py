"""One application at one socket, answered from a thread of its own."""

from __future__ import annotations

import logging
import socket
import threading

import uvicorn

from precheck.board.gate import App

LOCAL = "127.0.0.1"


def listening(port: int = 0, address: str = LOCAL) -> socket.socket:
    """Return a socket that listens at one address of this computer, and at no other. Raises `OSError` where it cannot."""
    found = socket.socket(
        socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP
    )  # with no protocol named, answers wait 40 ms
    found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((address, port))
        found.listen(64)
    except OSError:
        found.close()
        raise
    return found


class Serving:
    """An application that is served until it is told to stop."""

    def __init__(self, app: App, at: socket.socket) -> None:
        self.socket = at
        config = uvicorn.Config(
            app, log_config=None, access_log=False, lifespan="off", server_header=False, date_header=False
        )
        logging.getLogger("uvicorn.access").disabled = True  # whoever listens: an address holds the secret
        self._server = uvicorn.Server(config)
        self._one_at_a_time = threading.Lock()
        self._thread = threading.Thread(target=self._serve, daemon=True)

    @property
    def goes_on(self) -> bool:
        """Whether it answers, and was not told to stop."""
        return not self._server.should_exit and self._thread.is_alive()

    def start(self) -> None:
        """Begin to answer, unless it was told to stop meanwhile."""
        with self._one_at_a_time:
            if not self._server.should_exit:
                self._thread.start()

    def tell_to_stop(self) -> None:
        """Have it end soon."""
        with self._one_at_a_time:
            self._server.should_exit = True

    def stop(self) -> None:
        """End it, and wait until it has ended."""
        self.tell_to_stop()
        if self._thread.is_alive() and threading.current_thread() is not self._thread:
            self._thread.join(timeout=5)
        self.socket.close()

    def _serve(self) -> None:
        self._server.run(sockets=[self.socket])
