"""Where a served board's cable ends: a pseudo-terminal behind a symbolic link, or a TCP port. One client at a time."""

import contextlib
import errno
import os
import select
import socket

from termprobe.errors import LinkBusyError, LinkDeniedError, LinkMissingError, UsageError

CHUNK = 65536
SEND_LIMIT_S = 1.0
LOOPBACK = "127.0.0.1"


class PtyEnd:
    """A pseudo-terminal, raw, that `path` points to. Raise UsageError where something else stands there.

    The near end is not kept open here: a client that opens it exclusively must be able to come back, and bytes sent
    while nobody listens must be lost, as on a cable.
    """

    def __init__(self, path):
        try:
            import pty
            import tty
        except ImportError:  # Windows
            raise UsageError(
                "--pty needs a system with pseudo-terminals; use --tcp HOST:PORT here"
            ) from None
        self.name = path
        self._own, near = pty.openpty()
        tty.setraw(near)
        self._target = os.ttyname(near)
        os.close(near)
        os.set_blocking(self._own, False)
        self._hangup = select.poll()
        self._hangup.register(self._own, 0)
        try:
            _point(path, self._target)
        except UsageError:
            os.close(self._own)
            raise

    def sources(self):
        """Return what to wait for: nothing while no client has opened the near end."""
        return [] if self._hangup.poll(0) else [self._own]

    def receive(self, ready):
        """Return the bytes that have come; `ready` is what select says of the sources."""
        if self._own not in ready:
            return b""
        with contextlib.suppress(OSError):  # the client has gone
            return os.read(self._own, CHUNK)
        return b""

    def send(self, data):
        """Send `data`; what nobody takes is lost."""
        if self.sources():
            with contextlib.suppress(OSError):
                os.write(self._own, data)

    def close(self):
        """Take the symbolic link away, if it is still ours, and hang up."""
        with contextlib.suppress(OSError):
            if os.readlink(self.name) == self._target:
                os.unlink(self.name)
        os.close(self._own)


def _point(path, target):
    """Make `path` a symbolic link to `target` at once, in place of one that stood there; raise UsageError where it cannot be."""
    if os.path.lexists(path) and not os.path.islink(path):
        raise UsageError(
            f"{path}: must be free, or a symbolic link from an earlier time, and it is neither; name another path"
        )
    passing = f"{path}.{os.getpid()}"
    try:
        os.symlink(target, passing)
        os.replace(passing, path)
    except OSError as error:
        with contextlib.suppress(OSError):
            os.unlink(passing)
        raise UsageError(
            f"{path}: must be a place for a symbolic link, but it is not ({error.strerror})"
        ) from None


class TcpEnd:
    """A TCP port; `address` is HOST:PORT, or PORT alone for this computer only; port 0 takes a free one. Raise a LinkError
    where it cannot be had."""

    def __init__(self, address):
        host, port = _host_and_port(address)
        try:
            family = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
            self._listener = socket.create_server((host, port), family=family, backlog=1)
        except OSError as error:
            kind = {errno.EADDRINUSE: LinkBusyError, errno.EACCES: LinkDeniedError}.get(
                error.errno, LinkMissingError
            )
            raise kind(
                f"{address}: must be an address of this computer with a free port, but it is not "
                f"({error.strerror or error}); try {LOOPBACK}:0 for any free port"
            ) from None
        self._client = None
        host, port = self._listener.getsockname()[:2]
        self.name = f"socket://[{host}]:{port}" if ":" in host else f"socket://{host}:{port}"

    def sources(self):
        """Return what to wait for."""
        return [self._listener] if self._client is None else [self._listener, self._client]

    def receive(self, ready):
        """Return the bytes that have come; `ready` is what select says of the sources."""
        data = b""
        if self._client in ready:
            data = self._take()
        if self._listener in ready:
            self._admit()
        return data

    def _take(self):
        data = b""
        with contextlib.suppress(OSError):
            data = self._client.recv(CHUNK)
        if not data:
            self._part()
        return data

    def _admit(self):
        with contextlib.suppress(OSError):
            client, _ = self._listener.accept()
            if self._client is not None:
                client.close()
                return
            client.settimeout(SEND_LIMIT_S)
            client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._client = client

    def send(self, data):
        """Send `data`; what nobody takes is lost."""
        if self._client is not None:
            try:
                self._client.sendall(data)
            except OSError:
                self._part()

    def _part(self):
        self._client.close()
        self._client = None

    def close(self):
        """Let go of client and port."""
        if self._client is not None:
            self._part()
        self._listener.close()


def _host_and_port(address):
    host, _, port = address.rpartition(":")
    if not port.isascii() or not port.isdigit() or int(port) > 65535:
        raise UsageError(f"--tcp must be HOST:PORT, the port from 0 to 65535, not {address!r}")
    return host.strip("[]") or LOOPBACK, int(port)
