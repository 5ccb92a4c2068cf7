"""Shim notes in the forms that people keep."""

import pytest

from gudgeon.quantity.shims import shims_written

THOU = 2.54e-5


@pytest.mark.parametrize(
    ("text", "left", "right"),
    [
        # forms of a kept sheet and of restorers' notebooks
        ("shims: 5 left, 5 right, each 0.0020 in", [2] * 5, [2] * 5),
        ("shims: 2 left, 1 right, each 0.0020 in", [2, 2], [2]),
        ("L: 3 @ .002 + 1 @ .005; R: same", [2, 2, 2, 5], [2, 2, 2, 5]),
        ("L: 3 @ .002; R: 2 @ .002 + 1 @ .001", [2, 2, 2], [2, 2, 1]),
        ("left 2 of 2 thou, right 2 of 2 thou and 1 of 5 thou", [2, 2], [2, 2, 5]),
        ("shims 3 x .002 each side", [2] * 3, [2] * 3),
        ("2 x 0.05 mm each side", [0.05 / 0.0254] * 2, [0.05 / 0.0254] * 2),
        ("shims left 3, right 4, .003 each", [3] * 3, [3] * 4),
        ("L: none; R: 1 @ .002", [], [2]),
        ("no shims", [], []),
    ],
)
def test_notes_are_understood(text, left, right):
    found = shims_written(text)
    assert found is not None
    assert [each / THOU for each in found.left] == pytest.approx(left)
    assert [each / THOU for each in found.right] == pytest.approx(right)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "shims bagged",
        "5 left, 5 right",
        "each 0.002 in",
        "oiled strip",
        "L: 3 @ .002",
        "3 @ 2 in each side",
        "no play felt",
    ],
)
def test_what_does_not_tell_is_not_guessed(text):
    assert shims_written(text) is None
