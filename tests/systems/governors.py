"""A bench with a governor of known geometry: two weights on bell-cranks, a spring on the sleeve, worn by known amounts."""

from __future__ import annotations

from gudgeon.engine.outline import Outline
from tests.systems.benches import INCH, Maker

OUNCE, LBF = 0.45359237 / 16, 4.4482216152605


def outline(**more: object) -> Outline:
    told = {
        "name": "test engine", "cylinders": 3, "strokes": 4, "rated_speed": 450.0, "governor": "two flyweights on the camshaft",
        "governing": "throttling", "power": "15 hp", **more,
    }  # fmt: skip
    return Outline(**told)  # type: ignore[arg-type]


def governor(
    *, pin_play: float = 0.009, flat: float = 0.110, groove: float = 0.012, thrust: float = 0.012, **told: object
) -> Maker:
    """Sizes in inch; every reading with a standard uncertainty of a tenth of a thou."""
    maker = Maker(outline=outline(**told), noise=0.0001 * INCH)
    for name, size in (
        ("pivot radius", 2.0), ("weight arm", 2.0), ("sleeve arm", 1.25), ("weight radius, sleeve down", 2.1),
        ("sleeve travel", 0.4375),
    ):  # fmt: skip
        maker.read("governor", "governor", name, size * INCH)
    maker.read("governor", "governor", "force to move the sleeve up", 24.5 * LBF, noise=0.2)
    maker.read("governor", "governor", "force at which the sleeve comes back", 21.5 * LBF, noise=0.2)
    for n in (1, 2):
        item = f"weight {n}"
        maker.read("governor_weight", item, "mass", 28.0 * OUNCE, noise=0.003)
        for name, size in (
            ("pin diameter", 0.3125), ("pin hole", 0.3125 + pin_play), ("lug hole", 0.3135), ("pin length", 1.5),
            ("roller diameter", 0.625), ("roller bore", 0.2540), ("roller pin diameter", 0.2480), ("roller width", 0.375),
            ("roller flat width", flat),
        ):  # fmt: skip
            maker.read("governor_weight", item, name, size * INCH)
    for name, size in (
        ("bore", 0.8790), ("shaft diameter", 0.8740), ("groove depth", groove), ("collar groove width", 0.3840),
        ("fork block width", 0.3700), ("thrust slack", thrust), ("ball diameter", 0.2494), ("race diameter", 1.5),
    ):  # fmt: skip
        maker.read("governor_sleeve", "sleeve", name, size * INCH)
    maker.read("governor_sleeve", "sleeve", "ball count", 17, noise=0.0)
    for name, size in (
        ("free length", 2.75), ("fitted length", 2.25), ("wire diameter", 0.135), ("outside diameter", 1.5),
    ):  # fmt: skip
        maker.read("governor_spring", "governor spring", name, size * INCH)
    maker.read("governor_spring", "governor spring", "force at 2.00 in", 36.0 * LBF, noise=0.5)
    maker.words("governor_spring", "governor spring", "place", "on the sleeve")
    return maker
