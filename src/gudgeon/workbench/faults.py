"""What the workbench refuses, each in one sentence: what was read, what is wrong, what would be right."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.drawing import DrawingFault
from gudgeon.engine.fold import NotFolded
from gudgeon.engine.outline_file import NoOutline
from gudgeon.jobfile import JobFault
from gudgeon.quantity import NotUnderstood, UnknownUnit


class Refused(ValueError):
    """The workbench did not do what was asked; nothing was written. ``str()`` is the sentence to show."""


@dataclass(frozen=True, slots=True)
class LineFault:
    """One line of a file that could not be understood."""

    line: int
    text: str
    reason: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.reason}"


class NoneTaken(Refused):
    """A file held lines that could not be understood, so none of it was taken."""

    def __init__(self, source: str, faults: tuple[LineFault, ...], good: int) -> None:
        self.source, self.faults, self.good = source, faults, good
        lines = "\n".join(f"  {fault}" for fault in faults)
        noun = "line" if len(faults) == 1 else "lines"
        super().__init__(
            f"{source}: {len(faults)} {noun} could not be read, so none of its {good + len(faults)} was taken "
            f"(--good-only takes the other {good} and keeps these to be mended):\n{lines}"
        )


def sentences() -> tuple[type[Exception], ...]:
    """The faults whose text is a sentence for a person. Anything else is a fault of the program and shows as one."""
    from gudgeon.reckoning import Loop
    from gudgeon.systems import UnknownSystem

    return (Refused, JobFault, NotUnderstood, UnknownUnit, NoOutline, NotFolded, DrawingFault, Loop, UnknownSystem, OSError)
