"""Camshaft, lobes and followers on the bench, looked up once per reckoning."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.mechanics import cam_lift
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.judging import Practice, practice, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader, number

Read = tuple[Draws, tuple[str, ...]]
USUAL_OPEN = {"intake": (190.0, 240.0), "exhaust": (215.0, 240.0), "": (190.0, 240.0)}
"""Crank degrees that a valve stood open where nobody read it: Kansas State about 1935, exhaust 220 to 230, inlet about 200;
Pagé 1917, exhaust about 225; Ford A 236. Taken as even over the range."""


@dataclass(frozen=True, kw_only=True)
class CamSet:
    """What was read or noted of the camshaft and what it lifts. ``worked_out`` keeps what was computed, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> CamSet:
        """The camshaft as it stands on the bench; the one asked for last is kept."""
        kept = _LAST.get("set")
        same = kept is not None and kept.bench.snapshot is bench.snapshot and kept.bench.named == bench.named
        if kept is None or not same or kept.bench.findings.get("valves") is not bench.findings.get("valves"):
            kept = _LAST["set"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def lobes(self) -> tuple[str, ...]:
        """Names of the lobes."""
        return self.bench.items(d.LOBE)

    @cached_property
    def followers(self) -> tuple[str, ...]:
        """Names of the followers."""
        return self.bench.items(d.FOLLOWER)

    @cached_property
    def bearings(self) -> tuple[str, ...]:
        """Numbers of the bearings whose journal or bore was read, in order."""
        items = [item for item in self.bench.items(d.CAM) if "journal" in item.lower() or "bearing" in item.lower()]
        return tuple(dict.fromkeys(number(item) for item in items))

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.bench.snapshot.outline.rated_speed)

    @cached_property
    def speed(self) -> float | None:
        """Rated speed of the camshaft [rad/s]."""
        rated = self.bench.snapshot.outline.rated_speed
        return None if rated is None else rated * math.pi / 30 / cam_lift.CRANK_PER_CAM

    def cam_item(self, kind: str, bearing: str) -> str:
        """The name of a bearing's journal or bore."""
        names = [item for item in self.bench.items(d.CAM) if kind in item.lower() and number(item) == bearing]
        return names[0] if names else f"cam {kind} {bearing}"

    def size(self, feature: Feature, item: str) -> Measured | None:
        """A feature as one size."""
        return self.reader.size(feature, item)

    def rules(self, *subjects: str, size: float) -> Practice:
        """What authorities say of a quantity."""
        return practice(*subjects, size=size, slow=self.slow)

    def partner(self, item: str, part: str) -> str | None:
        """The lobe, follower, valve or spring that belongs to an item by its name ("exhaust 2 lobe": "exhaust 2 follower")."""
        stem = valve_name(item)
        return next((each for each in self.bench.items(part) if valve_name(each) == stem), None)

    def lift(self, lobe: str) -> Read | None:
        """Lift of a lobe [m]: as read, else height over nose less base circle, else the greatest of its lift table."""
        read = self.size(d.LIFT, lobe)
        if read is not None:
            return read.draws, read.inputs
        height, base = self.size(d.HEIGHT, lobe), self.size(d.BASE, lobe)
        if height is not None and base is not None:
            return height.draws - base.draws, (*height.inputs, *base.inputs)
        table = self.table(lobe)
        return None if table is None else (np.asarray(table[1].max(axis=0)), table[2])

    def table(self, lobe: str) -> tuple[Draws, Draws, tuple[str, ...]] | None:
        """The lift table of a lobe: cam angles [rad], lifts [m] of shape (angles, draws), readings; None under five lifts."""
        read = self.reader.at_sizes(d.LIFT_AT, lobe)
        if len(read) < 5:
            return None
        angles = np.radians([figure for figure, _, _ in read])
        return angles, np.stack([each.draws for _, _, each in read]), tuple(i for _, _, each in read for i in each.inputs)

    def lash(self, lobe: str) -> Read | None:
        """Lash read at the lobe's valve, brought to the follower [m]."""
        valve = self.partner(lobe, "valve")
        read = self.reader.smallest(d.VALVE_LASH, valve) if valve else None
        return None if read is None else (read.draws / self.ratio(lobe), read.inputs)

    def usual_lash(self, lobe: str) -> float:
        """The lash that its kind is set to, as the valves' findings give it, brought to the follower [m]; nought where none."""
        for finding in self.bench.findings.get("valves", ()):
            if finding.quantity == "lash" and finding.target_low is not None and valve_name(finding.item) == valve_name(lobe):
                return (finding.target_low + (finding.target_high or finding.target_low)) / 2 / self.ratio(lobe)
        return 0.0

    def ratio(self, lobe: str) -> float:
        """Ratio of the rocker, 1 where none was read."""
        valve = self.partner(lobe, "valve")
        read = self.size(d.VALVE_ROCKER, valve) if valve else None
        return 1.0 if read is None else read.value

    def half_open(self, lobe: str) -> tuple[Draws, tuple[str, ...], bool]:
        """Cam angle [rad] from nose to where its valve opens, at the lash of today; was it read, or is it the usual one?"""
        kind = kind_of(lobe)
        for cylinder in self.bench.items(d.TIMING):
            if number(cylinder) != number(lobe):
                continue
            opens, closes = (event(self, cylinder, f"{kind} {does}") for does in ("opens", "closes"))
            if opens is not None and closes is not None:
                crank = math.pi + closes[0] - opens[0]
                return np.asarray(crank / 4), (*opens[1], *closes[1]), True
        low, high = USUAL_OPEN[kind]
        return self.reader.even(f"{kind} valve stands open", math.radians(low), math.radians(high)) / 4, (), False

    def spring_force(self, item: str) -> Read | None:
        """Force of the spring with its valve open [N], as the valves' findings give it."""
        stem = valve_name(item)
        for finding in self.bench.findings.get("valves", ()):
            if (
                finding.quantity == "spring force, valve open"
                and finding.value is not None
                and valve_name(finding.item) == stem
            ):
                low, high = finding.low or finding.value, finding.high or finding.value
                sigma = (high - low) / (2 * 1.645)
                return finding.value + sigma * self.bench.named(f"open force of {finding.item}"), finding.inputs
        return None

    def is_roller(self, follower: str | None) -> bool | None:
        """Has a follower a roller? By its words, else by what was read of it; None where nothing says."""
        if follower is None:
            return None
        words = self.reader.words(d.KIND, follower)[0].lower()
        if words:
            return "roller" in words
        if any(self.reader.spots(feature, follower) for feature in (d.ROLLER, d.EYE, d.PIN, d.PLAY, d.FLAT)):
            return True
        return False if self.reader.spots(d.DISH, follower) else None


_LAST: dict[str, CamSet] = {}


def valve_name(item: str) -> str:
    """The valve that an item belongs to, by its name: "intake 2" of "inlet 2 lobe"."""
    words = item.lower().replace("inlet", "intake")
    found = re.search(r"(intake|exhaust)\D*(\d+)", words)
    return f"{found[1]} {found[2]}" if found else words.split(" lobe")[0].split(" follower")[0].split(" spring")[0]


def kind_of(item: str) -> str:
    """ "intake", "exhaust", or "" where the name does not say."""
    name = valve_name(item)
    return next((kind for kind in ("intake", "exhaust") if kind in name), "")


_CENTRES = {"intake opens": "T", "intake closes": "B", "exhaust opens": "B", "exhaust closes": "T"}
_DATUM = re.compile(r"\b([AB])(TDC|BDC)\b")


def event(cams: CamSet, cylinder: str, name: str) -> Read | None:
    """An event as after its own centre [rad of the crank], negative before: intake opens and exhaust closes after inner centre,
    the others after outer centre. None where it was not read, or nothing says which centre it was counted from."""
    feature = next((each for each in d.EVENTS if each.name == name), None)
    read = cams.size(feature, cylinder) if feature else None
    if feature is None or read is None:
        return None
    readings = cams.bench.snapshot.readings_of(cams.reader.key(feature, cylinder))
    texts = [text for reading in readings for text in (reading.understood.words, reading.unit, reading.typed)]
    datum = next((found for text in texts if (found := _DATUM.search(text.upper()))), None)
    if datum is None:
        return None
    after = read.draws if datum[1] == "A" else -read.draws
    if datum[2][0] != _CENTRES[name]:
        after = after - math.pi
    return np.asarray(after), read.inputs


def blank(item: str, quantity: str, *, part: str, dimension: str = "length") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)
