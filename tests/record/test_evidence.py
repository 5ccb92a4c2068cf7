"""A word stands only when the job holds what it needs: each test takes one thing away."""

import pytest

from gudgeon.engine.fold import fold
from gudgeon.engine.plain import to_plain
from gudgeon.record import evidence_for
from tests.record.job import done, entries, event, finding, history, reading, verdict

RETURNED = reading("cyl 1", "bore diameter", "5.1455", stage="returned")
FITTED = reading("cyl 1", "bore diameter", "5.1455", stage="fitted")


def of(*more, base=None):
    log = entries(*[(entry.kind, entry.body) for entry in (base or history())], *more)
    snapshot = fold(log)
    return evidence_for(snapshot.verdict_on("cylinders: bores"), snapshot)


def test_made_good_needs_step_order_and_reading():
    assert of(done(), event("accepted"), RETURNED).said == "made good"


@pytest.mark.parametrize(
    ("there", "missing"),
    [
        ((event("accepted"), RETURNED), "step not done: bore and hone"),
        ((done(), RETURNED), "order not accepted: Bore cylinder 1"),
        ((done(), event("accepted")), "no reading of cyl 1 afterwards"),
    ],
)
def test_one_thing_missing_takes_the_word_away(there, missing):
    found = of(*there)
    assert found.said == "decided: make good"
    assert found.missing == (missing,)


def test_a_withdrawn_order_is_not_waited_for():
    assert of(done(), event("withdrawn"), RETURNED).said == "made good"


def test_remade_needs_an_order():
    base = [entry for entry in history() if entry.kind != "order"]
    made = ("verdict", to_plain(verdict("remake")))
    assert "no order or receipt" in of(made, done(), RETURNED, base=base).missing
    assert of(made, done(), event("accepted"), RETURNED).said == "remade"


def test_adjusted_needs_a_reading_as_fitted():
    base = [entry for entry in history() if entry.kind != "order"]
    adjusted = ("verdict", to_plain(verdict("adjust")))
    assert of(adjusted, done(), RETURNED, base=base).missing == ("no reading of cyl 1 afterwards",)
    assert of(adjusted, done(), FITTED, base=base).said == "adjusted"


def running_on(standing="within", **more):
    from dataclasses import replace

    return ("verdict", to_plain(replace(verdict("run on", steps=()), findings=(finding(standing=standing, **more),))))


def test_run_on_needs_measuring_within_and_a_picture():
    assert of(running_on()).said == "run on"
    assert of(running_on("doubtful")).missing == ("cyl 1 out of round, top is doubtful",)
    assert of(running_on("not measured", value=None)).missing == ("no reading of cyl 1 against a limit",)
    bare = [entry for entry in history() if entry.kind not in ("picture", "part")]
    assert of(running_on(), base=bare).missing == ("no picture of cyl 1",)
