"""What a person at the bench writes down: gauges that are out, warm rooms, repeats, steps, and slips of the eye.

Errors of gauges: common practice; a plain micrometer in an average hand +-.0002 (Page 1917, ch. XI, of a metric one). A gauge
that lies in the same room as the part grows with it; one brought from a warm house has not yet settled.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from numpy.random import Generator

from tests.simulated.makers import INCH, MM, THOU

EXPANSION = {"cast iron": 10.8e-6, "steel": 11.6e-6, "bronze": 18.0e-6, "aluminium": 22.5e-6, "brass": 19.0e-6}


@dataclass(frozen=True)
class Kind:
    """A kind of gauge: smallest step, spread of one reading, spread of gauges among themselves [m]; ``metric`` scale."""

    name: str
    step: float
    spread: float
    offset: float
    metric: bool = False


KINDS = {
    "outside_mic": Kind("outside_mic", 0.1 * THOU, 0.12 * THOU, 0.2 * THOU),
    "outside_mic_coarse": Kind("outside_mic_coarse", 1.0 * THOU, 0.3 * THOU, 0.5 * THOU),
    "dial_bore_gauge": Kind("dial_bore_gauge", 0.1 * THOU, 0.15 * THOU, 0.6 * THOU),
    "telescoping_gauge": Kind("telescoping_gauge", 0.5 * THOU, 0.5 * THOU, 0.4 * THOU),
    "vernier": Kind("vernier", 1.0 * THOU, 0.8 * THOU, 0.8 * THOU),
    "dial_indicator": Kind("dial_indicator", 0.5 * THOU, 0.4 * THOU, 0.2 * THOU),
    "rule": Kind("rule", INCH / 64, INCH / 150, 0.0),
    "outside_mic mm": Kind("outside_mic", 0.01 * MM, 0.004 * MM, 0.006 * MM, metric=True),
    "dial_bore_gauge mm": Kind("dial_bore_gauge", 0.01 * MM, 0.004 * MM, 0.012 * MM, metric=True),
    "telescoping_gauge mm": Kind("telescoping_gauge", 0.01 * MM, 0.013 * MM, 0.01 * MM, metric=True),
    "vernier mm": Kind("vernier", 0.02 * MM, 0.02 * MM, 0.02 * MM, metric=True),
}


@dataclass
class Shop:
    """The person, the gauges of that day and the room. Rows gather in ``rows``, one dictionary a line of the CSV."""

    rng: Generator
    metric: bool
    temperature: float
    settled: float
    says_temperature: bool
    directions: bool
    slips: float
    typed_thou: bool
    rows: list[dict[str, str]] = field(default_factory=list)
    slipped: list[int] = field(default_factory=list)
    offsets: dict[str, float] = field(default_factory=dict)

    def kind(self, gauge: str) -> Kind:
        """The gauge of that kind in this shop."""
        return KINDS.get(f"{gauge} mm", KINDS[gauge]) if self.metric else KINDS[gauge]

    def offset(self, kind: Kind) -> float:
        """By how much this gauge reads over, the same all day [m]."""
        if kind.name not in self.offsets:
            wild = 3.0 if self.rng.random() < 0.04 else 1.0
            self.offsets[kind.name] = float(self.rng.normal(0, kind.offset * wild))
        return self.offsets[kind.name]

    def shown(self, size: float, kind: Kind, material: str) -> float:
        """What the gauge shows of a true size at 20 C [m], to its step."""
        warm = self.temperature - 20.0
        grown = size * (1 + EXPANSION[material] * warm) / (1 + EXPANSION["steel"] * warm * self.settled)
        read = grown + self.offset(kind) + float(self.rng.normal(0, kind.spread))
        return round(read / kind.step) * kind.step

    def read(
        self, part: str, item: str, feature: str, size: float, gauge: str, *,
        material: str = "steel", station: str = "", direction: float | None = None, depth: float | None = None, note: str = "",
    ) -> None:  # fmt: skip
        """Read one spot, once or a few times, and write it down."""
        kind = self.kind(gauge)
        where = {"station": station, "note": note, "instrument": kind.name}
        where["depth"] = "" if depth is None else f"{depth / self._unit(kind):.3f} {'mm' if kind.metric else 'in'}"
        where["direction_deg"] = "" if direction is None or not self.directions else f"{direction:g}"
        times = 1 if self.rng.random() < 0.72 else int(self.rng.integers(2, 4))
        for repeat in range(1, times + 1):
            shown = self.shown(size, kind, material)
            if slip := self._slip(shown, kind):
                self.slipped.append(len(self.rows) + 1)
                shown = slip
            self._row(part, item, feature, repeat=str(repeat), **where, **self._typed(shown, kind))

    def _typed(self, shown: float, kind: Kind) -> dict[str, str]:
        unit = "mm" if kind.metric else "in"
        step = f"{kind.step / self._unit(kind):.6f}".rstrip("0")
        if self.typed_thou and not kind.metric and shown > INCH and kind.name != "rule":
            base = round(shown / INCH * 8) / 8
            eighths = round((base - int(base)) * 8)
            written = f"{int(base)} {eighths}/8" if eighths else f"{int(base)}"
            off = (shown / INCH - base) * 1000
            return {"reading": f"{off:+.1f}", "unit": "thou", "base": written, "resolution": f"{kind.step / THOU:.3g}"}
        places = 3 if kind.metric else 4
        return {"reading": f"{shown / self._unit(kind):.{places}f}", "unit": unit, "resolution": step}

    def feel(self, part: str, item: str, feature: str, gap: float, *, note: str = "") -> None:
        """Try feelers of whole thou: the thickest that goes in; some people write down the first that will not, too."""
        thickness = max(0, int(gap / THOU + float(self.rng.normal(0, 0.2))))
        both = self.rng.random() < 0.4
        typed = f"go .{thickness:03d} no-go .{thickness + 1:03d}" if both and thickness else f"{thickness / 1000:.4f}"
        self._row(part, item, feature, reading=typed, unit="in", instrument="feeler", resolution="0.001", note=note)

    def count(self, part: str, item: str, feature: str, number: int, *, note: str = "") -> None:
        """Count something."""
        self._row(part, item, feature, reading=str(number), unit="count", instrument="count", resolution="1", note=note)

    def angle(self, part: str, item: str, feature: str, degrees: int) -> None:
        """A thread gauge that fits."""
        self._row(part, item, feature, reading=str(degrees), unit="deg", instrument="thread gauge", resolution="5")

    def miss(self, part: str, item: str, feature: str, station: str = "") -> None:
        """A place that the gauge did not reach."""
        self._row(part, item, feature, station=station, reading="not reached", unit="in")

    def standards(self) -> None:
        """Try the gauges on a setting standard; not everyone has one, nor tries all gauges."""
        for gauge in ("outside_mic", "dial_bore_gauge", "telescoping_gauge", "vernier", "outside_mic_coarse"):
            kind = self.kind(gauge)
            if self.rng.random() < 0.25:
                continue
            inches = int(self.rng.choice((1, 2, 3)))
            note = f"certified {inches}.0000 in = {inches * 25.4:.3f} mm at 20 C"
            for repeat in range(1, int(self.rng.integers(2, 5))):
                shown = self.shown(inches * INCH, kind, "steel")
                columns = {
                    "unit": "mm" if kind.metric else "in",
                    "resolution": f"{kind.step / self._unit(kind):.6f}".rstrip("0"),
                }
                columns["reading"] = f"{shown / self._unit(kind):.{3 if kind.metric else 4}f}"
                columns |= {"instrument": kind.name, "repeat": str(repeat), "note": note}
                self._row("setting_standard", f"standard {inches}.0000 in", "size", **columns)

    def _slip(self, shown: float, kind: Kind) -> float | None:
        """Now and then a figure goes wrong: two digits change places, a turn of the thimble is missed, a tenth is misread."""
        if self.rng.random() >= self.slips or kind.name == "rule":
            return None
        which = self.rng.integers(0, 4)
        if which == 0 and "mic" in kind.name:
            return shown + float(self.rng.choice((-1, 1))) * (0.5 * MM if kind.metric else 25 * THOU)
        if which == 1:
            return shown + float(self.rng.choice((-1, 1))) * (MM if kind.metric else 100 * THOU)
        figures = list(f"{shown / self._unit(kind):.{3 if kind.metric else 4}f}")
        place = figures.index(".") + 1 + int(self.rng.integers(0, 2))
        if abs(int(figures[place]) - int(figures[place + 1])) < 2:
            return None
        figures[place], figures[place + 1] = figures[place + 1], figures[place]
        return float("".join(figures)) * self._unit(kind)

    def _row(self, part: str, item: str, feature: str, **columns: str) -> None:
        row = {"row": str(len(self.rows) + 1), "part": part, "item": item, "feature": feature, **columns}
        if self.says_temperature:
            row["part_temp_c"] = f"{self.temperature:.1f}"
        self.rows.append(row)

    @staticmethod
    def _unit(kind: Kind) -> float:
        return MM if kind.metric else INCH


def draw_shop(rng: Generator, *, metric: bool) -> Shop:
    """A person and a shop at random."""
    return Shop(
        rng=rng,
        metric=metric,
        temperature=float(rng.uniform(6, 32)),
        settled=float(rng.uniform(0.85, 1.0)) if rng.random() < 0.85 else float(rng.uniform(0.0, 0.5)),
        says_temperature=rng.random() < 0.7,
        directions=rng.random() < 0.8,
        slips=float(rng.choice((0.0, 0.004, 0.012), p=(0.4, 0.45, 0.15))),
        typed_thou=rng.random() < 0.1,
    )
