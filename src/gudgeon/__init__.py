"""Gudgeon: the workbench of a person bringing a very old engine back to life without a manual.

``import gudgeon`` gives the use cases of the workbench, one function each::

    with gudgeon.start("my-engine", person="Ada") as job:
        gudgeon.take(job, "readings.csv", person="Ada")
        for finding in job.reckoning().findings:
            print(finding.item, finding.quantity, finding.standing)
"""

from __future__ import annotations

from typing import Any


def __getattr__(name: str) -> Any:
    from gudgeon import workbench

    try:
        return getattr(workbench, name)
    except AttributeError:
        raise AttributeError(f"module 'gudgeon' has no attribute {name!r}") from None


def __dir__() -> list[str]:
    from gudgeon import workbench

    return dir(workbench)
