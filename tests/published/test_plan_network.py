"""Worked examples of network planning, against textbooks."""

import numpy as np
import pytest

from gudgeon.engine.origin import Range
from gudgeon.planning.durations import chance_by, pert_mean, pert_variance
from gudgeon.planning.network import network_of, passes

# Taylor, Introduction to Management Science, chapter on project management, the PERT order processing example;
# https://flylib.com/books/en/3.287.1.117/1:
# activities 1-3-5-7 critical, 24 weeks, P(T <= 28) = 0.9633 from a table at 1.79.
PERT = {
    "1": (5, 8, 17, 9),
    "2": (7, 10, 13, 10),
    "3": (3, 5, 7, 5),
    "4": (1, 3, 5, 3),
    "5": (4, 6, 8, 6),
    "6": (3, 3, 3, 3),
    "7": (3, 4, 5, 4),
}


@pytest.mark.parametrize(("key", "expected"), [(key, row[3]) for key, row in PERT.items()])
def test_pert_means(key, expected):
    low, likely, high, _ = PERT[key]
    assert pert_mean(Range(low, likely, high, "Taylor")) == pytest.approx(expected)


def test_pert_path_variance_and_chance():
    path = [Range(*PERT[key][:3], "Taylor") for key in ("1", "3", "5", "7")]
    means, variances = np.array([pert_mean(r) for r in path]), np.array([pert_variance(r) for r in path])
    assert means.sum() == pytest.approx(24)
    assert variances.sum() == pytest.approx(5.0)
    # The book reads 0.9633 at z = 1.79 from its table; z = 4/sqrt(5) = 1.7889 gives 0.96318 (tables of the normal).
    assert chance_by(means=means, variances=variances, deadline=28) == pytest.approx(0.9632, abs=2e-4)


# Hillier and Lieberman, Introduction to Operations Research, chapter on project management, the Reliable Construction Co.:
# 44 weeks, critical path A-B-C-E-F-J-L-N, the slacks below (from memory of the table; networkx gives the same 44).
RELIABLE = {
    "A": (2, ""), "B": (4, "A"), "C": (10, "B"), "D": (6, "C"), "E": (4, "C"), "F": (5, "E"), "G": (7, "D"),
    "H": (9, "EG"), "I": (7, "C"), "J": (8, "FI"), "K": (4, "J"), "L": (5, "J"), "M": (2, "H"), "N": (6, "KL"),
}  # fmt: skip
SLACK = {"D": 4, "G": 4, "H": 4, "I": 2, "K": 1, "M": 4}


def reliable():
    network = network_of({key: tuple(before) for key, (_, before) in RELIABLE.items()})
    return network, passes(network, [RELIABLE[key][0] for key in network.keys])


def test_cpm_length_and_critical_path():
    network, walked = reliable()
    assert walked.length == 44
    assert "".join(sorted(key for key, on in zip(network.keys, walked.critical, strict=True) if on)) == "ABCEFJLN"


@pytest.mark.parametrize("key", list(RELIABLE))
def test_cpm_slack(key):
    network, walked = reliable()
    assert walked.slack[network.place(key)] == SLACK.get(key, 0)


def test_cpm_length_against_networkx():
    import networkx

    _, walked = reliable()
    graph = networkx.DiGraph()
    for key, (weeks, before) in RELIABLE.items():
        graph.add_edge(key, "end", weight=weeks)
        for wanted in before:
            graph.add_edge(wanted, key, weight=RELIABLE[wanted][0])
    assert networkx.dag_longest_path_length(graph) == walked.length
