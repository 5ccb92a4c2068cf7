"""Oil and bearing metal against their standards, loads against textbook sizes."""

from itertools import pairwise

import numpy as np
import pytest

from gudgeon.handbook.babbitts import babbitt, babbitts
from gudgeon.handbook.oils import oil, oils
from gudgeon.handbook.shelf import UnknownName
from gudgeon.mechanics.babbitt import bore_to_leave, gap_behind, lining_volume, mandrel, metal_to_melt, shrinkage
from gudgeon.mechanics.bearing_load import bearing_pressure, crankpin_load, pin_diameter, piston_position, work_of_cycle
from gudgeon.mechanics.oil import dynamic, kinematic, walther

CST = 1e-6


def test_d341_on_a_worked_sheet():
    # ASTM D341: 32 cSt at 40, 5.4 at 100 degree C. With K = C + 273.15 : A 9.53082, B 3.74658; 8.5332 at 80, 15.186 at 60,
    # 86.28 at 20 (arithmetic). The sheet scribd.com 361017004 takes K = C + 273 and prints 9.5259, 3.7449, 8.5.
    constants = walther(temperature=(40, 100), kinematic=(32 * CST, 5.4 * CST))
    assert constants == pytest.approx((9.53082, 3.74658), abs=2e-5)
    found = kinematic(temperature=np.array([20.0, 60.0, 80.0, 100.0]), constants=constants)
    assert found / CST == pytest.approx([86.28, 15.186, 8.5332, 5.4], rel=1e-4)


def test_d341_of_a_thirty_weight():
    # 100 cSt at 40, 11.2 at 100: A 9.15482, B 3.54728; 27.35 at 70, 13.32 at 93.33 degree C (arithmetic on D341).
    constants = walther(temperature=(40, 100), kinematic=(100 * CST, 11.2 * CST))
    assert constants == pytest.approx((9.15482, 3.54728), abs=2e-5)
    assert kinematic(temperature=70.0, constants=constants) / CST == pytest.approx(27.35, rel=1e-3)
    assert kinematic(temperature=93.3333, constants=constants) / CST == pytest.approx(13.32, rel=1e-3)
    assert dynamic(temperature=70.0, constants=constants) == pytest.approx(27.35e-6 * 849.25, rel=1e-3)


def test_an_oil_that_thickens_as_it_warms_is_refused():
    with pytest.raises(ValueError, match="thinner oil at the higher"):
        walther(temperature=(40, 100), kinematic=(10 * CST, 11 * CST))


def test_j300_grades():
    # SAE J300 (January 2015), printed at raso.name: mm2/s at 100 degree C, mPa s at 150 degree C.
    printed = {"SAE 20": (6.9, 9.3, 2.6), "SAE 30": (9.3, 12.5, 2.9), "SAE 40": (12.5, 16.3, 3.7), "SAE 50": (16.3, 21.9, 3.7)}
    for name, (low, below, shear) in printed.items():
        assert oil(name).at_100 == pytest.approx((low * CST, below * CST))
        assert oil(name).high_shear == pytest.approx(shear * 1e-3)
    ends = [each.at_100 for each in oils().values()]
    assert all(one[1] == other[0] for one, other in pairwise(ends))
    with pytest.raises(UnknownName):
        oil("SAE 35")


def test_b23_grades():
    # ASTM B23 appendix X1 (liquisearch.com): melting starts, pouring [degree C]; yield [psi] at 68 and 212 degree F.
    printed = {
        "1": (223, 441, 4400, 2650),
        "2": (241, 424, 6100, 3000),
        "3": (240, 491, 6600, 3150),
        "7": (240, 338, 3550, 1600),
        "8": (237, 341, 3400, 1750),
    }
    for grade, (melts, pours, cold, hot) in printed.items():
        found = babbitt(grade)
        assert found.melts_from == pytest.approx(melts, abs=0.8)
        assert found.pour_at == pytest.approx(pours, abs=0.8)
        assert [each / 6894.757 for each in found.yields] == pytest.approx([cold, hot], rel=1e-4)
    # ASTM B23 table 1 (maycoindustries.com): grade 2 is 88 to 90 tin, 7 to 8 antimony, 3 to 4 copper.
    assert babbitt("2").composition["Sn"] == (88, 90)
    assert babbitt("2").composition["Sb"] == (7, 8)
    assert all(sum(high for _, high in each.composition.values()) >= 100 or each.base == "lead" for each in babbitts().values())


def test_every_babbitt_is_poured_above_its_liquid_point():
    # a metal poured below it has solid in it (metallurgy of the alloy); liquid points of B23's appendix, from memory
    for each in babbitts().values():
        assert each.pour_at > (each.all_liquid or each.melts_from)


def test_linings_by_arithmetic():
    # a shell of 2.5 in with a 2 in bore, 3 in long: pi/4 (2.5^2 - 2^2) 3 = 5.3014 in3; at 7.39 that is .642 kg
    inch = 0.0254
    assert lining_volume(shell=2.5 * inch, bore=2 * inch, length=3 * inch) / inch**3 == pytest.approx(5.30144, rel=1e-5)
    mass = metal_to_melt(shell=2.5 * inch, bore=2 * inch, length=3 * inch, density=7390, head=0, loss=0)
    assert mass == pytest.approx(0.6420, rel=1e-3)
    # grade 2 from 241 degree C: 21e-6 x 221 = .464 %
    assert shrinkage(expansion=21e-6, solid_at=241) == pytest.approx(0.00464, rel=1e-3)
    gap = gap_behind(shell=0.0635, lining_shrinkage=0.00464, shell_expansion=11e-6, shell_hot=230)
    assert gap == pytest.approx(0.0635 * (0.00464 - 0.00231), rel=1e-2)
    assert bore_to_leave(finished=0.0508, cut=0.0015) == pytest.approx(0.0493)
    assert mandrel(bore=0.05, expansion=11.5e-6, mandrel_hot=150) * (1 + 11.5e-6 * 130) == pytest.approx(0.05)


def test_khurmi_sizes_of_crank_and_piston_pins():
    # Khurmi and Gupta, A Textbook of Machine Design, p. 1159: 24,740 N; crankpin l = 1.3 d at 10 N/mm2: d 43.6 mm;
    # small end l = 2 d at 15 N/mm2: d 28.7 mm.
    assert pin_diameter(load=24740, pressure=10e6, slenderness=1.3) * 1e3 == pytest.approx(43.6, abs=0.05)
    assert pin_diameter(load=24740, pressure=15e6, slenderness=2.0) * 1e3 == pytest.approx(28.7, abs=0.05)
    assert bearing_pressure(load=24740, diameter=0.0436, length=1.3 * 0.0436) == pytest.approx(10e6, rel=0.01)


ENGINE = {
    "bore": 0.1143, "throw": 0.0762, "rod": 0.3429, "compression_ratio": 4.2, "peak": 18e5,
}  # fmt: skip


def test_the_work_at_the_pin_is_the_work_of_the_gas():
    # conservation of energy: inertia gives and takes nothing over a cycle at steady speed
    loads = crankpin_load(**ENGINE, speed=47.0, reciprocating=4.0, rotating=2.5, count=7200)
    area = np.pi / 4 * ENGINE["bore"] ** 2
    height = piston_position(angle=loads.angle, throw=ENGINE["throw"], rod=ENGINE["rod"])
    step = np.diff(np.append(height, height[0]))
    mean = 0.5 * (loads.pressure + np.roll(loads.pressure, -1)) - 101325
    gas = -np.sum(mean * area * step)
    assert work_of_cycle(loads=loads, throw=ENGINE["throw"]) == pytest.approx(gas, rel=0.003)
    # without gas: no work at all
    still = crankpin_load(**{**ENGINE, "peak": 101325.0}, speed=47.0, reciprocating=4.0, rotating=0.0)
    dead = crankpin_load(**{**ENGINE, "peak": 101325.0}, speed=1e-6, reciprocating=4.0, rotating=0.0)
    assert work_of_cycle(loads=still, throw=0.0762) == pytest.approx(work_of_cycle(loads=dead, throw=0.0762), abs=0.5)


def test_inertia_at_the_dead_centres():
    # r w^2 (1 + r/l) at inner and r w^2 (1 - r/l) at outer dead centre: exact there (any textbook of the theory of machines)
    from gudgeon.mechanics.bearing_load import piston_acceleration

    found = piston_acceleration(angle=np.array([0.0, np.pi]), throw=0.0762, rod=0.3429, speed=47.0)
    whole = 0.0762 * 47.0**2
    assert found == pytest.approx([-whole * (1 + 0.0762 / 0.3429), whole * (1 - 0.0762 / 0.3429)], rel=1e-9)


def test_acceleration_is_the_second_derivative_of_the_place():
    from gudgeon.mechanics.bearing_load import piston_acceleration

    angle, step = np.linspace(0, 6, 25), 1e-3
    at = [piston_position(angle=angle + k * step, throw=0.0762, rod=0.3429, offset=0.012) for k in (-1, 0, 1)]
    second = (at[0] - 2 * at[1] + at[2]) / step**2 * 47.0**2
    exact = piston_acceleration(angle=angle, throw=0.0762, rod=0.3429, speed=47.0, offset=0.012)
    assert exact == pytest.approx(second, rel=1e-4, abs=0.01)


def test_greatest_load_of_a_slow_engine_is_nearly_the_gas():
    loads = crankpin_load(**ENGINE, speed=1.0, reciprocating=4.0, rotating=2.5)
    assert loads.greatest == pytest.approx((18e5 - 101325) * np.pi / 4 * 0.1143**2, rel=0.01)
    several = crankpin_load(**{**ENGINE, "peak": np.array([15e5, 18e5])}, speed=1.0, reciprocating=4.0, rotating=2.5)
    assert several.greatest[1] == pytest.approx(loads.greatest)
    assert several.pin.shape == (2, 720)
