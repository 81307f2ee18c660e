"""pyserial's server of RFC 2217 on loopback, before a line that brings all back."""

import socket
import threading

import serial
import serial.rfc2217


class Rfc2217Server:
    """pyserial's own server side, before a loop: what the link writes comes back to it."""

    def __init__(self):
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.path = f"rfc2217://127.0.0.1:{self._listener.getsockname()[1]}"
        self.port = serial.serial_for_url("loop://", timeout=0.01)
        threading.Thread(target=self._serve, daemon=True).start()

    def _serve(self):
        connection, _ = self._listener.accept()
        self.connection = connection
        self.write = connection.sendall
        manager = serial.rfc2217.PortManager(self.port, self)
        connection.settimeout(0.01)
        while True:
            try:
                data = connection.recv(1024)
                if not data:
                    return
                self.port.write(b"".join(manager.filter(data)))
            except TimeoutError:
                pass
            except OSError:
                return
            connection.sendall(b"".join(manager.escape(self.port.read(self.port.in_waiting))))

    def vanish(self):
        self.connection.shutdown(socket.SHUT_RDWR)
        self._listener.close()
