"""Who sits at this device, and which units they read; kept in the person's own configuration folder."""

from __future__ import annotations

import getpass
import os
import tomllib
from pathlib import Path
from typing import cast

from gudgeon.quantity import UnitChoice


def _file() -> Path:
    base = os.environ.get("XDG_CONFIG_HOME") or (os.environ.get("APPDATA") if os.name == "nt" else "")
    return (Path(base) if base else Path.home() / ".config") / "gudgeon" / "person.toml"


def _kept() -> dict[str, str]:
    try:
        return {name: str(value) for name, value in tomllib.loads(_file().read_text("utf-8")).items()}
    except (OSError, tomllib.TOMLDecodeError):
        return {}


def person(given: str | None = None) -> str:
    """The name a change is written down under: given, $GUDGEON_PERSON, kept on this device, or the login name."""
    return given or os.environ.get("GUDGEON_PERSON") or _kept().get("name") or _login()


def _login() -> str:
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "owner"


def units(given: str | None = None) -> UnitChoice:
    """The units this person reads: given, or kept on this device, or inches."""
    choice = given or _kept().get("units") or "inch"
    return cast(UnitChoice, choice if choice in ("inch", "millimetre") else "inch")


def keep(*, name: str | None, units: str | None) -> Path:
    """Keep the name and units on this device. Returns the file written."""
    kept = _kept() | ({"name": name} if name else {}) | ({"units": units} if units else {})
    file = _file()
    file.parent.mkdir(parents=True, exist_ok=True)
    lines = (f'{key} = "{_quoted(value)}"\n' for key, value in kept.items())
    file.write_text("".join(lines), "utf-8")
    return file


def _quoted(value: str) -> str:
    return value.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ")
