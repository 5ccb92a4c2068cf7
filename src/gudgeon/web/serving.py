"""Serving the pages from this machine: a free port, the browser opened, on the local network only when asked for."""

from __future__ import annotations

import socket
import sys
import threading
import webbrowser
from pathlib import Path

from gudgeon.web.app import create_app, own_addresses
from gudgeon.web.pairing import Pairing

FIRST_PORT, TRIED = 8765, 40


def serve(place: Path | str, *, port: int = 0, lan: bool = False, open_browser: bool = True) -> None:
    """Serve until stopped. ``port`` 0 takes the first free one from 8765 on. Raises OSError when a given port is taken."""
    import uvicorn

    pairing = Pairing() if lan else None
    app = create_app(place, lan=lan, pairing=pairing)
    listener = listening("0.0.0.0" if lan else "127.0.0.1", port)
    address = f"http://127.0.0.1:{listener.getsockname()[1]}/"
    print(f"The workbench is open at {address}  (Ctrl+C closes it)", flush=True)
    if pairing is not None:
        _show_pairing(listener.getsockname()[1], pairing)
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", lifespan="on", server_header=False))
    if open_browser:
        threading.Timer(0.2, webbrowser.open, [address]).start()
    server.run(sockets=[listener])


def listening(host: str, port: int) -> socket.socket:
    """A listening socket on the port, or, for 0, on the first free one."""
    ports = [port] if port else range(FIRST_PORT, FIRST_PORT + TRIED)
    for number in ports:
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if sys.platform != "win32":
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, number))
        except OSError:
            listener.close()
            continue
        return listener
    tried = str(port) if port else f"{FIRST_PORT} to {FIRST_PORT + TRIED - 1}"
    raise OSError(f"Port {tried} is in use; close the other program, or name a free port with --port.")


def _show_pairing(port: int, pairing: Pairing) -> None:
    import segno

    addresses = own_addresses()
    if not addresses:
        print("No address on a local network was found; connect this machine to one first.", flush=True)
        return
    address = f"http://{addresses[0]}:{port}/pair?code={pairing.code}"
    print(f"On a phone in the same network: {address}", flush=True)
    print(f"The code {pairing.code} pairs one device; the next one is on the page “who sits here”.", flush=True)
    segno.make(address, error="m").terminal(compact=True)
