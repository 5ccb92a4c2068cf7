"""Orders for pins and bushes, each with its drawing; pins wait for the holes that they are made to."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import pin_view, plain_bush_section
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.pivots import description as d
from gudgeon.systems.pivots.joints import Joint
from gudgeon.systems.pivots.ways import BUSH_MADE, EYE_MADE, PIN_MADE, groups, subject_of
from gudgeon.systems.proposing import warned

PIN_TOLERANCE, LENGTH_TOLERANCE = 0.0004 * d.INCH, 0.005 * d.INCH
LEFT_SMALL = (0.008 * d.INCH, 0.006 * d.INCH)
"""How much smaller a bush's inside is left, to be reamed when it is in [m]; common practice."""


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict on pivots of one use; none for another subject, or where nothing is made."""
    group = next((each for each in groups(bench) if subject_of(each.use) == verdict.subject), None)
    if group is None:
        return ()
    joints = {joint.name: joint for joint in group.joints}
    drafts = (
        _bushes(verdict, joints, group.use.name),
        _eyes(verdict, joints, group.use.name),
        _pins(verdict, joints, group.use.name),
    )
    return tuple(draft for draft in drafts if draft is not None)


def _draft(verdict: Verdict, joints: dict[str, Joint], *, key: str, title: str, to: str, **more: object) -> OrderDraft:
    any_joint = next(iter(joints.values()))
    names = [name for joint in joints.values() for name in (joint.pin, joint.bush) if name]
    return OrderDraft(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        verdict=verdict.id,
        title=title,
        to=to,
        rests_on=readings_behind(any_joint.reader.bench, names, d.KINDS),
        **more,  # type: ignore[arg-type]
    )


def pin_limits(joint: Joint, verdict: Verdict) -> tuple[Limits, str]:
    """Limits of a new pin [m], and what they are made to: the finished hole where it is read, else the size chosen."""
    found = verdict.chosen.parameters
    low = found[f"{joint.name} clearance low"]
    hole = joint.finished()
    if hole is not None:
        upper = hole - low
        return (upper - PIN_TOLERANCE, upper), f"the finished hole, {both(hole)}"
    size = found[f"{joint.name} pin"]
    return (size - PIN_TOLERANCE, size), "the size chosen; the hole is not finished yet"


def _pins(verdict: Verdict, joints: dict[str, Joint], use: str) -> OrderDraft | None:
    wanted = {name: joints[name] for name in asked_for(verdict, "pin") if name in joints}
    if not wanted:
        return None
    holes = asked_for(verdict, "hole")
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for name, joint in wanted.items():
        limits, made_to = pin_limits(joint, verdict)
        length = joint.size("length")
        detail = (
            ("diameter", f"{band(limits)}, to {made_to}"),
            ("length", both(length.value) if length else "not read yet"),
            (
                "hardness",
                "case-hardened, ground or lapped after"
                if use in ("piston", "roller")
                else "case-hardened where it swings; core left soft",
            ),
            ("ends, oil and cotter holes", "as the old pin, which goes with the order"),
        )
        lines.append(OrderLine(1, f"pin for {name}", "mild steel for case-hardening", detail))
        asked.append(asked_size(joint.feature("diameter"), joint.pin or name, limits, note="over the whole length"))
        if length is not None:
            drawn.append(_pin_drawing(joint, limits, length.value))
        needs.append(
            reading_need(joint.reader, joint.feature("length"), joint.pin or name, why="a pin is made from its drawing")
        )
        if name in holes:
            needs.append(_hole_need(joint))
    return _draft(
        verdict,
        wanted,
        key=f"{use}-pins",
        title="Pins",
        to="turner and grinder",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        needs=tuple(needs),
        leave_alone=("The old pins: they go with the order as patterns and come back.",),
        priced=PIN_MADE,
    )


def _hole_need(joint: Joint) -> Need:
    return Need(
        kind="reading",
        what=f"{joint.bush or joint.name}: bore read after reaming",
        met=joint.finished() is not None,
        why="the pin is made to the hole, not the hole to the pin",
        part=joint.part,
        item=joint.bush or joint.name,
        feature="bush bore",
    )


def _pin_drawing(joint: Joint, limits: Limits, length: float) -> Drawing:
    return Drawing(
        number="".join(char for char in joint.name if char.isdigit()) or "1",
        title=f"Pin, {joint.name}",
        part=joint.part,
        item=joint.pin or joint.name,
        material="mild steel for case-hardening",
        finish="ground",
        views=(pin_view(diameter=limits, length=(length - LENGTH_TOLERANCE, length)),),
        notes=("Oil and cotter holes as the old pin.",),
        job=joint.reader.bench.snapshot.outline.name,
    )


def _bushes(verdict: Verdict, joints: dict[str, Joint], use: str) -> OrderDraft | None:
    outsides = asked_for(verdict, "bush outside")
    wanted = {name: joints[name] for name in outsides if name in joints}
    if not wanted:
        return None
    low, high = asked_for(verdict, "press low"), asked_for(verdict, "press high")
    bores = asked_for(verdict, "bush bore low"), asked_for(verdict, "bush bore high")
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for name, joint in wanted.items():
        outside = (outsides[name] + low[name], outsides[name] + high[name])
        inside = (bores[0][name] - LEFT_SMALL[0], bores[0][name] - LEFT_SMALL[1])
        length = joint.size("bush length")
        detail = (
            ("outside", f"{band(outside)}, for a hole bored to {both(outsides[name])}"),
            ("inside", f"{band(inside)}, reamed when it is in to {band((bores[0][name], bores[1][name]))}"),
            ("length", both(length.value) if length else "not read yet"),
            ("oil", "hole and groove as the old bush; drilled when it is in"),
        )
        lines.append(OrderLine(1, f"bush for {joint.bush or name}", "leaded bronze (C93200, SAE 660)", detail))
        asked.append(
            asked_size(joint.feature("bush outside diameter"), joint.bush or name, outside, note="before it is pressed in")
        )
        if length is not None:
            drawn.append(_bush_drawing(joint, outside, inside, length.value))
        needs.append(
            reading_need(joint.reader, joint.feature("bush length"), joint.bush or name, why="a bush is made from its drawing")
        )
        needs.append(
            reading_need(
                joint.reader, joint.feature("boss outside diameter"), joint.bush or name, why="the boss must stand the press"
            )
        )
    return _draft(
        verdict,
        wanted,
        key=f"{use}-bushes",
        title="Bushes",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        needs=tuple(needs),
        cautions=warned("pressing"),
        priced=BUSH_MADE,
    )


def _bush_drawing(joint: Joint, outside: Limits, inside: Limits, length: float) -> Drawing:
    return Drawing(
        number="".join(char for char in joint.name if char.isdigit()) or "1",
        title=f"Bush, {joint.bush or joint.name}",
        part=joint.part,
        item=joint.bush or joint.name,
        material="leaded bronze (C93200, SAE 660)",
        finish="outside turned fine, ends square",
        views=(plain_bush_section(outside=outside, inside=inside, length=(length - LENGTH_TOLERANCE, length)),),
        notes=("Press fit; reamed when it is in. Lead-in of 15° on the end that goes in first.",),
        job=joint.reader.bench.snapshot.outline.name,
    )


def _eyes(verdict: Verdict, joints: dict[str, Joint], use: str) -> OrderDraft | None:
    wanted = {name: joints[name] for name in asked_for(verdict, "remade") if name in joints}
    if not wanted:
        return None
    holes = asked_for(verdict, "hole")
    lines = tuple(
        OrderLine(
            1,
            f"new part for {joint.bush or name}",
            "as the old one; say which before cutting",
            (
                ("hole", f"{both(holes[name] - 0.010 * d.INCH)}, left small and reamed at fitting"),
                ("all else", "as the old part, which goes with the order; worn faces built up in the pattern"),
            ),
        )
        for name, joint in wanted.items()
    )
    return _draft(
        verdict,
        wanted,
        key=f"{use}-eyes",
        title="Levers and eyes to pattern",
        to="machinist or foundry",
        lines=lines,
        asked=(),
        leave_alone=("The old parts: patterns, not to be cleaned up or cut.",),
        priced=EYE_MADE,
    )
