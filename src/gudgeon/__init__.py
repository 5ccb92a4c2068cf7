"""Gudgeon: the workbench of a person bringing a very old engine back to life without a manual.

``import gudgeon`` gives the use cases of the workbench, one function each::

    with gudgeon.start("my-engine", person="Ada") as job:
        gudgeon.take(job, "readings.csv", person="Ada")
        for finding in job.reckoning().findings:
            print(finding.item, finding.quantity, finding.standing)
"""

from __future__ import annotations

from importlib import import_module
from typing import Any


def __getattr__(name: str) -> Any:
    # The rooms are submodules; every other name is a use case of the workbench, imported when first used.
    if name.startswith("_"):
        raise AttributeError(f"module 'gudgeon' has no attribute {name!r}")
    try:
        return getattr(import_module("gudgeon.workbench"), name)
    except AttributeError:
        raise AttributeError(f"module 'gudgeon' has no attribute {name!r}") from None


def __dir__() -> list[str]:
    return dir(import_module("gudgeon.workbench"))
