"""The shim: same numbers compiled and plain, and no numba where it is not wanted."""

from __future__ import annotations

import subprocess
import sys


def run(code: str, **environment: str) -> str:
    import os

    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env={**os.environ, **environment}, timeout=120
    )
    return done.stdout.strip()


PLENTY = """
import sys, numpy as np
from gudgeon.mechanics.circles import minimum_zone_circle
rng = np.random.default_rng(0)
t = np.linspace(0, 6.28, 30, endpoint=False)
r = 1 + 0.01 * rng.standard_normal((100, 30))
z = minimum_zone_circle(x=r * np.cos(t), y=r * np.sin(t)).out_of_roundness
print("numba" in sys.modules, repr(float(z.sum())))
"""


def test_plain_when_told_so_and_the_same_numbers():
    compiled, value = run(PLENTY, GUDGEON_PLAIN="0").split()
    plain, same = run(PLENTY, GUDGEON_PLAIN="1").split()
    assert (compiled, plain) == ("True", "False")
    assert abs(float(value) - float(same)) < 1e-12


def test_numba_is_not_imported_for_a_few_points():
    code = PLENTY.replace("(100, 30)", "(4, 30)")
    assert run(code).split()[0] == "False"


def test_without_numba_installed():
    code = "import sys; sys.modules['numba'] = None\n" + PLENTY.replace('"numba" in sys.modules', "True")
    assert run(code).split()[0] == "True"
