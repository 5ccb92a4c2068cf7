"""Flow of air through openings, and the two-gauge leak test, against tables and a general library."""

from __future__ import annotations

import math

import fluids.compressible
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import gas_flow as g

PSI, IN = 6894.757293168361, 0.0254

# Elger et al., Engineering Fluid Mechanics, Table A.1, k = 1.4 (also NACA Report 1135): M, p/p0, rho/rho0, T/T0, A/A*
TABLE = [
    (0.10, 0.9930, 0.9950, 0.9980, 5.8218),
    (0.50, 0.8430, 0.8852, 0.9524, 1.3398),
    (0.60, 0.7840, 0.8405, 0.9328, 1.1882),
    (0.90, 0.5913, 0.6870, 0.8606, 1.0089),
    (1.00, 0.5283, 0.6339, 0.8333, 1.0000),
]


@pytest.mark.parametrize(("mach", "pressure", "density", "temperature", "area"), TABLE)
def test_isentropic_table(mach: float, pressure: float, density: float, temperature: float, area: float) -> None:
    assert g.pressure_ratio(mach=mach) == pytest.approx(pressure, abs=5.1e-5)
    assert g.density_ratio(mach=mach) == pytest.approx(density, abs=5.1e-5)
    assert g.temperature_ratio(mach=mach) == pytest.approx(temperature, abs=5.1e-5)
    assert g.area_ratio(mach=mach) == pytest.approx(area, abs=5.1e-5)


def test_critical_ratio_as_the_fluids_library_has_it() -> None:
    assert g.critical_ratio() == pytest.approx(fluids.compressible.P_critical_flow(1.0, 1.4), rel=1e-12)
    assert g.critical_ratio(k=1.3) == pytest.approx(fluids.compressible.P_critical_flow(1.0, 1.3), rel=1e-12)


def test_choked_flow_of_air_in_both_systems_of_units() -> None:
    # First principles: C = sqrt(k/R (2/(k+1))^((k+1)/(k-1))) = .040415 in SI with R 287.05, .53180 with lbm, lbf, R 53.34
    flow = g.mass_flow(area=1.0, upstream=1.0, downstream=0.2, temperature=1.0)
    assert flow == pytest.approx(0.040415, abs=5e-7)
    # 1 in2 at 100 psia and 529.67 R: .53180 x 100 / sqrt(529.67) lbm/s; R of 53.34 ft lbf/(lbm R) is 286.99 J/(kg K)
    inch = g.mass_flow(area=IN**2, upstream=100 * PSI, downstream=20 * PSI, temperature=529.67 / 1.8, constant=286.99)
    assert inch / 0.45359237 == pytest.approx(0.53180 * 100 / math.sqrt(529.67), rel=1e-4)


@pytest.mark.parametrize("mach", [0.1, 0.5, 0.9])
def test_flow_at_a_row_of_the_table(mach: float) -> None:
    # Continuity: at a nozzle of A, flow is choked flow of A* = A / (A/A*), both from the table's row
    ratio = float(g.pressure_ratio(mach=mach))
    row = next(row for row in TABLE if row[0] == mach)
    assert g.flow_function(ratio=ratio) == pytest.approx(0.684731 / row[4], rel=5e-5)


# Ideal nozzles, both of one discharge coefficient, 80 psig supply, 14.696 psia, 20 C, .040 in orifice: the flow by the
# formulas above from a spreadsheet of their own; cylinder psig, g/s, leak hole in. Computed, not printed anywhere.
LEAK_DOWN = [
    (75, 0.576, 0.0279),
    (70, 0.790, 0.0336),
    (65, 0.936, 0.0377),
    (60, 1.043, 0.0412),
    (50, 1.181, 0.0471),
    (40, 1.243, 0.0525),
]


@pytest.mark.parametrize(("cylinder", "flow", "hole"), LEAK_DOWN)
def test_leak_down_equilibrium_both_ways(cylinder: float, flow: float, hole: float) -> None:
    orifice = math.pi / 4 * (0.040 * IN) ** 2
    supply, ambient, held = 94.696 * PSI, 14.696 * PSI, (cylinder + 14.696) * PSI
    through = g.mass_flow(area=orifice, upstream=supply, downstream=held, temperature=293.15)
    assert 1e3 * float(through) == pytest.approx(flow, abs=6e-4)
    leak = g.leak_down_area(orifice=orifice, reading=held, supply=supply, ambient=ambient)
    assert math.sqrt(4 * float(leak) / math.pi) / IN == pytest.approx(hole, abs=6e-5)
    hole_area = math.pi / 4 * (hole * IN) ** 2
    settled = g.leak_down_pressure(orifice=orifice, leak=hole_area, supply=supply, ambient=ambient)
    assert float(settled) / PSI - 14.696 == pytest.approx(cylinder, abs=0.15)  # the hole is printed to three figures


def test_faa_restrictors_reject_at_about_their_own_size() -> None:
    # AC 43.13-1B par. 8-14: .040 in under a 5 in bore, .060 in from 5 in on; rejected under 60/80. With like discharge
    # coefficients 60/80 is a leak of 1.03 times the restrictor's diameter, whichever restrictor it is.
    for size in (0.040, 0.060):
        orifice = math.pi / 4 * (size * IN) ** 2
        leak = g.leak_down_area(orifice=orifice, reading=74.696 * PSI, supply=94.696 * PSI, ambient=14.696 * PSI)
        assert math.sqrt(4 * float(leak) / math.pi) / (size * IN) == pytest.approx(0.0412 / 0.040, abs=0.002)


def test_restrictor_chokes_under_35_psi() -> None:
    # .5283 x 94.696 = 50.03 psia = 35.3 psig; then 1.2495 g/s = .002754 lbm/s whatever the leak
    orifice = math.pi / 4 * (0.040 * IN) ** 2
    flows = [
        float(g.mass_flow(area=orifice, upstream=94.696 * PSI, downstream=(p + 14.696) * PSI, temperature=293.15)) * 1e3
        for p in (35.2, 20.0, 0.0)
    ]
    assert flows == pytest.approx([1.2495] * 3, abs=1e-4)
    assert flows[0] / 453.59237 == pytest.approx(0.002754, abs=1e-6)
    above = g.mass_flow(area=orifice, upstream=94.696 * PSI, downstream=(38 + 14.696) * PSI, temperature=293.15)
    assert float(above) * 1e3 < 1.2494


@given(ratio=st.floats(0.05, 0.999), area=st.floats(1e-8, 1e-4), temperature=st.floats(250, 700))
def test_pressure_upstream_turns_the_flow_round(ratio: float, area: float, temperature: float) -> None:
    flow = g.mass_flow(area=area, upstream=1e5 / ratio, downstream=1e5, temperature=temperature)
    back = g.pressure_upstream(flow=flow, area=area, downstream=1e5, temperature=temperature)
    assert back == pytest.approx(1e5 / ratio, rel=1e-9)


def test_openings_in_a_row() -> None:
    # Near ratio 1 two alike pass as one of 1/sqrt(2) (incompressible orifices in series, any hydraulics text)
    assert g.area_in_series(areas=(1e-6, 1e-6), ratio=0.9999) == pytest.approx(1e-6 / math.sqrt(2), rel=1e-4)
    assert g.area_in_series(areas=(1e-6, 2e-6, 2e-6), ratio=0.9999) == pytest.approx(1e-6 / math.sqrt(1.5), rel=1e-4)
    # Far from it the second chokes: r where r x .684731 = psi(r), solved by hand .8075 (psi(.8075) = .5529)
    assert g.area_in_series(areas=(1e-6, 1e-6), ratio=0.1) == pytest.approx(0.8075e-6, abs=3e-10)
    # One wide open does nothing
    assert g.area_in_series(areas=(1e-6, 1e-2), ratio=0.4) == pytest.approx(1e-6, rel=1e-6)


def test_rooms_between_openings_pass_the_same_flow() -> None:
    areas = (1e-6, 3e-6, 2e-6)
    flow, rooms = g.flow_in_series(areas=areas, upstream=5e5, downstream=1e5, temperature=300.0)
    steps = [5e5, *rooms, 1e5]
    for area, before, after in zip(areas, steps[:-1], steps[1:], strict=True):
        assert g.mass_flow(area=area, upstream=before, downstream=after, temperature=300.0) == pytest.approx(flow, rel=1e-9)


def test_hold_time_of_a_choked_leak_is_an_exponential() -> None:
    # While choked, flow is in proportion to pressure: t = V / (A C sqrt(R T)) ln(p1/p2), C = .684731
    time = g.hold_time(volume=250e-6, area=1e-6, first=6e5, last=3e5, ambient=1e5, temperature=293.15)
    expected = 250e-6 / (1e-6 * 0.684731 * math.sqrt(287.05 * 293.15)) * math.log(2)
    assert time == pytest.approx(expected, rel=1e-5)
    rest = g.hold_time(volume=250e-6, area=1e-6, first=1.5e5, last=1e5, ambient=1e5, temperature=293.15)
    steps = np.linspace(math.sqrt(0.5e5), 0, 200_001)
    p = 1e5 + ((steps[1:] + steps[:-1]) / 2) ** 2
    flow = g.mass_flow(area=1e-6, upstream=p, downstream=1e5, temperature=293.15)
    plain_sum = np.sum(np.diff(1e5 + steps**2) * -1 / flow) * 250e-6 / (287.05 * 293.15)
    assert rest == pytest.approx(plain_sum, rel=1e-6)


def test_standard_atmosphere() -> None:
    # ICAO Doc 7488: 5,000 ft 12.23 psia (84.31 kPa); 11,000 m 226.32 hPa
    assert float(g.standard_pressure(height=1524.0)) / PSI == pytest.approx(12.23, abs=0.005)
    assert g.standard_pressure(height=11_000.0) == pytest.approx(22_632, rel=1e-4)
