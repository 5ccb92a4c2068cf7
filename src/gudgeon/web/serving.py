"""Serving the pages from this machine: a free port, the browser opened, on the local network only when asked for."""

from __future__ import annotations

import socket
import sys
import threading
import webbrowser
from pathlib import Path

from gudgeon.web.app import create_app
from gudgeon.web.own_addresses import own_addresses
from gudgeon.web.pairing import Pairing
from gudgeon.workbench.devices import devices_of

FIRST_PORT, TRIED = 8765, 40
PATIENCE = 0.02
"""How long a page waits for a reckoning under way [s] before it shows the last one and says so."""

TURN = 0.0005
"""How long one thread may keep the interpreter while another waits [s], so that a reckoning holds no page up."""


def serve(place: Path | str, *, port: int = 0, lan: bool = False, open_browser: bool = True) -> None:
    """Serve until stopped. ``port`` 0 takes the first free one from 8765 on. Raises OSError when a given port is taken."""
    import uvicorn

    pairing = Pairing(devices_of(place)) if lan else None
    app = create_app(place, lan=lan, pairing=pairing, patience=PATIENCE)
    listener = listening("0.0.0.0" if lan else "127.0.0.1", port)
    address = f"http://127.0.0.1:{listener.getsockname()[1]}/"
    print(f"The workbench is open at {address}  (Ctrl+C closes it)", flush=True)
    if pairing is not None:
        _show_pairing(listener.getsockname()[1], pairing)
    sys.setswitchinterval(TURN)
    config = uvicorn.Config(app, log_level="warning", lifespan="on", server_header=False, proxy_headers=False)
    server = uvicorn.Server(config)
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
