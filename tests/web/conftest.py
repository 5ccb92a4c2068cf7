"""A job with the demo engine's outline and readings, copied afresh for each test that writes."""

from __future__ import annotations

import shutil
import warnings
from importlib import resources
from pathlib import Path

import pytest

from gudgeon import workbench
from gudgeon.engine.outline_file import read_outline
from gudgeon.web.app import create_app

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from starlette.testclient import TestClient


def build_job(folder: Path) -> None:
    demo = resources.files("gudgeon.demo")
    outline = read_outline((demo / "outline.toml").read_text("utf-8"))
    with workbench.start(folder, person="Tess Marlow", outline=outline) as job:
        workbench.take_text(
            job, (demo / "readings.csv").read_bytes(), source="readings.csv", person="Tess Marlow", good_only=True
        )


@pytest.fixture(scope="session")
def built(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("built") / "withy"
    build_job(folder)
    return folder


@pytest.fixture(scope="session")
def reading_client(built):
    """For tests that only look."""
    with TestClient(create_app(built), base_url="http://testserver") as client:
        yield client


@pytest.fixture
def place(built, tmp_path) -> Path:
    return Path(shutil.copytree(built, tmp_path / "withy"))


@pytest.fixture
def client(place):
    """For tests that write: a copy of the job, and a person who has been asked already."""
    with TestClient(create_app(place), base_url="http://testserver", cookies={"gudgeon-name": "Ida%20Fenn"}) as made:
        yield made


@pytest.fixture
def job(place):
    with workbench.open_job(place) as opened:
        yield opened
