"""The data files: every row whole, sourced and reachable; every refusal a sentence that helps."""

from __future__ import annotations

import pytest

from gudgeon.handbook import (
    BadTable,
    UnknownName,
    caution_subjects,
    cautions,
    families,
    gauge_kind,
    gauge_kinds,
    gear_pitches,
    material,
    materials,
    named_sizes,
    oversizes,
    proportions,
    rules,
    subjects,
)
from gudgeon.handbook.cautions import all_cautions
from gudgeon.handbook.oversizes import all_oversizes
from gudgeon.handbook.proportions import all_proportions
from gudgeon.handbook.rules import all_rules
from gudgeon.handbook.shelf import check, si, sources, table
from gudgeon.handbook.threads import all_threads


def test_every_row_of_every_table_names_source_and_grade():
    rows = [
        *materials().values(),
        *all_rules(),
        *gauge_kinds().values(),
        *all_cautions(),
        *all_oversizes(),
        *all_proportions(),
        *gear_pitches(),
    ]
    assert len(rows) > 500
    for row in rows:
        assert len(row.source) > 8, row
        assert row.grade in "ABCDEF", row
    assert all(thread.source for thread in all_threads())
    assert all(family.source for family in families().values())


def test_every_source_is_named_by_some_row():
    import tomllib
    from importlib import resources

    used: set[str] = set()

    def walk(value: object) -> None:
        if isinstance(value, dict):
            for key, each in value.items():
                if key == "source" and isinstance(each, str):
                    used.add(each)
                walk(each)
        elif isinstance(value, list):
            for each in value:
                walk(each)

    data = resources.files("gudgeon.handbook") / "data"
    for folder in (data, data / "rules"):
        for file in folder.iterdir():
            if file.name.endswith(".toml") and file.name != "sources.toml":
                walk(tomllib.loads(file.read_text(encoding="utf-8")))
    used |= {"iso 286", "ansi b4.1"}  # named by the modules that read those tables
    assert set(sources()) == used


def test_a_rule_from_memory_says_so_and_comes_last():
    rows = rules("piston skirt clearance, cast iron")
    assert [row.from_memory for row in rows] == sorted(row.from_memory for row in rows)
    assert rows[0].pre_1950


def test_units_of_tables_agree_with_pint():
    pint = pytest.importorskip("pint")
    ureg = pint.UnitRegistry()
    assert si(1, "short ton") == pytest.approx((1 * ureg.short_ton * ureg.standard_gravity).to("N").magnitude, rel=1e-12)
    assert si(1, "long ton") == pytest.approx((1 * ureg.long_ton * ureg.standard_gravity).to("N").magnitude, rel=1e-12)
    assert si(1, "psi ft/min") == pytest.approx((1 * ureg.psi * ureg.ft / ureg.minute).to("Pa*m/s").magnitude, rel=1e-12)
    assert si(212, "degF") == pytest.approx(ureg.Quantity(212, ureg.degF).to("kelvin").magnitude)


def test_dimensions_are_those_of_the_readings():
    assert {name: gauge_kind(name).dimension for name in ("rule", "count", "thermometer", "degree wheel", "burette")} == {
        "rule": "length",
        "count": "count",
        "thermometer": "temperature",
        "degree wheel": "angle",
        "burette": "volume",
    }
    assert gauge_kind("thermometer").resolution == pytest.approx(0.1)
    assert {row.dimension for row in rules("ring end gap")} == {"length"}


@pytest.mark.parametrize(
    ("ask", "near"),
    [
        (lambda: material("gray cast irn"), "gray cast iron"),
        (lambda: rules("ring end gaps"), "ring end gap"),
        (lambda: gauge_kind("outside micrometre"), "outside micrometer"),
        (lambda: cautions("babbit pouring"), "babbitt pouring"),
        (lambda: oversizes("cylinders"), "cylinder"),
        (lambda: proportions("pin diam"), "pin diameter"),
        (lambda: named_sizes("number drill"), "number drills"),
    ],
)
def test_an_unknown_name_is_told_its_neighbours(ask, near):
    with pytest.raises(UnknownName) as refused:
        ask()
    assert near in str(refused.value)
    assert str(refused.value).startswith("“")


def test_a_bad_row_is_refused_with_its_place():
    with pytest.raises(BadTable, match=r"rules row 3 has the unit “furlong”, which is not known"):
        check({"unit": "furlong", "source": "x"}, where="rules row 3", needs=("source",), may=("unit",))
    with pytest.raises(BadTable, match="has no source"):
        check({}, where="row", needs=("source",), may=())
    with pytest.raises(BadTable, match="has colour, which nothing reads"):
        check({"colour": 1}, where="row", needs=(), may=())


def test_every_limit_has_one_end_and_bands_rise():
    for row in all_rules():
        low, high = row.at(0.1)
        if row.purpose == "limit":
            assert (low is None) != (high is None), row
        elif low is not None and high is not None:
            assert low <= high * (1 + 1e-12) if high >= 0 else low <= high, row


def test_every_subject_and_caution_can_be_asked_for():
    assert all(rules(name) for name in subjects())
    assert all(cautions(name) for name in caution_subjects())


def test_practice_names_of_gauges_are_known():
    names = """outside_mic outside_mic_coarse dial_bore_gauge dial_bore_gauge_coarse telescoping_gauge vernier feeler
        plastic_thread dial_indicator rule spring_tester_lbf burette_cc pressure_gauge_psi degree_wheel barometer count"""
    kinds = [gauge_kind(name) for name in [*names.split(), "thread gauge"]]
    assert len({kind.name for kind in kinds}) == len(kinds)
    assert gauge_kind("FEELER").reads == "interval"
    assert gauge_kind("dial-bore gauge") is gauge_kind("dial_bore_gauge")


def test_no_alias_of_a_gauge_or_material_means_two_things():
    for file in ("gauges.toml", "materials.toml"):
        seen: dict[str, str] = {}
        for name, raw in table(file).items():
            for alias in {name.lower(), *(each.lower() for each in raw.get("aliases", ()))}:
                assert seen.setdefault(alias, name) == name, alias


def test_the_tables_travel_in_the_wheel():
    from importlib import resources

    data = resources.files("gudgeon.handbook") / "data"
    assert (data / "materials.toml").is_file()
    assert (data / "rules" / "rings.toml").is_file()


def test_a_temperature_without_a_slope_is_the_same_at_every_size():
    # Rathbun (1916): outlet of a gasoline engine not over 160 F, whatever its bore.
    row = next(row for row in rules("water outlet temperature", purpose="limit") if row.typed == "at most 160 degF")
    assert row.at(0.1) == row.at(0.0)
