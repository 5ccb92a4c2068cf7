"""Networks as people write them: wrong names, loops, and orders that must come out right."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.engine.step import StepDraft
from gudgeon.planning.network import checked, network_of, passes


def draft(key, *after):
    return StepDraft(key=key, title=key, system="t", after=after)


def test_an_unknown_step_is_reported_and_left_out():
    found = checked([draft("fit rings", "hone"), draft("bore")])
    assert found.remarks == ("Step “fit rings” waits for “hone”, which is not on the plan; that wait is not counted.",)
    assert found.unknown == (("fit rings", "hone"),)
    assert found.network.links == 0


def test_a_loop_is_named_step_by_step():
    found = checked([draft("pour", "scrape"), draft("scrape", "grind"), draft("grind", "pour"), draft("paint", "pour")])
    assert len(found.loops) == 1
    assert set(found.loops[0]) == {"pour", "scrape", "grind"}
    assert "“pour” waits for “scrape”, which waits for “grind”, which waits for “pour”" in found.remarks[0]
    assert len(found.network) == 4


def test_a_step_that_waits_for_itself():
    found = checked([draft("a", "a")])
    assert found.loops == (("a",),)
    assert found.network.links == 0


def test_a_step_given_twice_holds_as_given_last():
    found = checked([draft("a"), draft("b"), draft("a", "b")])
    assert "on the plan twice" in found.remarks[0]
    assert found.network.keys == ("b", "a")


def test_refusals_name_the_step():
    with pytest.raises(ValueError, match="“a” waits for “z”"):
        network_of({"a": ("z",)})
    with pytest.raises(ValueError, match="in a circle: “a” waits for “b”, which waits for “a”"):
        network_of({"a": ("b",), "b": ("a",)})


@st.composite
def networks(draw):
    count = draw(st.integers(1, 12))
    links = {str(i): [str(j) for j in range(i) if draw(st.booleans())] for i in range(count)}
    names = draw(st.permutations(list(links)))
    return {name: links[name] for name in names}, draw(st.lists(st.integers(0, 9), min_size=count, max_size=count))


@settings(deadline=None)
@given(networks())
def test_order_and_length_against_networkx(given_):
    import networkx

    links, took = given_
    network = network_of(links)
    place = {key: number for number, key in enumerate(network.keys)}
    assert all(place[wanted] < place[key] for key, row in links.items() for wanted in row)
    graph = networkx.DiGraph()
    for key, row in links.items():
        graph.add_edge(key, "end", weight=took[place[key]])
        graph.add_weighted_edges_from((wanted, key, took[place[wanted]]) for wanted in row)
    walked = passes(network, took)
    assert walked.length == networkx.dag_longest_path_length(graph)
    assert (walked.slack >= 0).all()
    assert walked.critical.any()


@settings(deadline=None)
@given(networks())
def test_a_loop_is_found_wherever_networkx_finds_one(given_):
    import networkx

    links, _ = given_
    links = {key: [*row, next(iter(links))] if key != next(iter(links)) else row for key, row in links.items()}
    graph = networkx.DiGraph()
    graph.add_nodes_from(links)
    graph.add_edges_from((key, wanted) for key, row in links.items() for wanted in row)
    loops = checked([draft(key, *row) for key, row in links.items()]).loops
    assert bool(loops) == (not networkx.is_directed_acyclic_graph(graph))
    for loop in loops:
        assert all(wanted in links[key] for key, wanted in zip(loop, (*loop[1:], loop[0]), strict=True))
