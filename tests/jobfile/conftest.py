from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from gudgeon.jobfile import Draft, JobFile

JPEG = b"\xff\xd8\xff\xe0 not a whole picture, but begun like one"


def reading(value: str, id: str = "") -> Draft:
    body = {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "reading": value, "unit": "in"}
    return Draft("reading", body, id)


@pytest.fixture
def job(tmp_path: Path) -> Iterator[JobFile]:
    with JobFile.create(tmp_path / "shed" / "old engine") as made:
        outline = {"is": "Outline", "name": "The engine of Saltmarsh Mill"}
        made.append([Draft("job", {"outline": outline, "format": 1})], person="Owner")
        yield made


@pytest.fixture
def measured(job: JobFile) -> JobFile:
    """A job with a picture (entry 2) and five readings (entries 3 to 7)."""
    digest = job.add_picture(JPEG)
    job.append([Draft("picture", {"digest": digest, "name": "plate.jpg"})], person="Owner")
    for number in range(5):
        job.append([reading(f"5.12{number}", f"ticket-{number}")], person="Owner")
    return job


@pytest.fixture
def nobody() -> Callable[[], AbstractContextManager[None]]:
    """Act as a user who owns nothing: the superuser may write where nothing can be written."""

    @contextmanager
    def acting() -> Iterator[None]:
        if os.geteuid() != 0:
            yield
            return
        os.seteuid(65534)
        try:
            yield
        finally:
            os.seteuid(0)

    return acting
