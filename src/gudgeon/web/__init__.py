"""The pages: one face of the workbench. No rule, no formula, no SQL; numbers arrive as text."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from starlette.applications import Starlette


def create_app(place: Path | str, *, lan: bool = False) -> Starlette:
    """The application over a job's folder or a shed of jobs; see ``gudgeon.web.app``."""
    from gudgeon.web.app import create_app as build

    return build(place, lan=lan)


def serve(place: Path | str, *, port: int = 0, lan: bool = False, open_browser: bool = True) -> None:
    """Serve the pages until stopped; see ``gudgeon.web.serving``."""
    from gudgeon.web.serving import serve as run

    run(place, port=port, lan=lan, open_browser=open_browser)


__all__ = ["create_app", "serve"]
