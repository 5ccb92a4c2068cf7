"""A demo job, built once, and a copy of it for each test."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import gudgeon
from gudgeon.demo import build
from gudgeon.workbench.job import Job


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "job"
    build(folder)
    return folder


@pytest.fixture
def demo(demo_folder: Path, tmp_path: Path) -> Iterator[Job]:
    shutil.copytree(demo_folder, tmp_path / "job")
    with gudgeon.open_job(tmp_path / "job") as job:
        yield job
