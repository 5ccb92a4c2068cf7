"""The orders that verdicts on the camshaft lead to: grinding, a new shaft, rollers and pins, followers, bushes."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.sketching import pin_view, plain_bush_section
from gudgeon.engine.system import Feature
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.steps import BEARINGS, BUSH_MADE, CAM_MADE, FOLLOWER_MADE, FOLLOWERS, LOBES, REGRIND, ROLLER_MADE
from gudgeon.systems.judging import middle
from gudgeon.systems.measured import number
from gudgeon.systems.proposing import warned

Limits = tuple[float, float]
LIFT_TOLERANCE, ROLLER_TOLERANCE, PIN_TOLERANCE, WIDTH_TOLERANCE = (
    0.002 * d.INCH,
    0.001 * d.INCH,
    0.0003 * d.INCH,
    0.004 * d.INCH,
)
CASE = "case-hardened steel, .08 in of case at least"
LEAVE_ALONE = ("Timing marks, keyways and the gear's seat.", "Journals, unless they are in the order.")


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is sent out."""
    cams = CamSet.of(bench)
    drafts: tuple[OrderDraft | None, ...] = ()
    if verdict.subject == LOBES:
        drafts = (_shaft(cams, verdict),)
    elif verdict.subject == FOLLOWERS:
        drafts = (_rollers(cams, verdict), _followers(cams, verdict))
    elif verdict.subject == BEARINGS:
        drafts = (_bushes(cams, verdict),)
    return tuple(draft for draft in drafts if draft is not None)


def _priced(verdict: Verdict) -> set[str]:
    return {item.name for item in verdict.chosen.priced}


def _asked_for(verdict: Verdict, word: str) -> dict[str, float]:
    found = verdict.chosen.parameters
    return {item: found[f"{item} {word}"] for item in verdict.chosen.items if f"{item} {word}" in found}


def _both(value: float) -> str:
    amount = Amount(value, "length", fine=value > d.INCH / 16)
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def _band(limits: Limits) -> str:
    return f"{_both(limits[0])} to {_both(limits[1])}"


def _size(part: str, item: str, feature: str, limits: Limits, note: str = "") -> AskedSize:
    return AskedSize(part=part, item=item, feature=feature, dimension="length", lower=limits[0], upper=limits[1], note=note)


def _shaft(cams: CamSet, verdict: Verdict) -> OrderDraft | None:
    new = CAM_MADE in _priced(verdict)
    if not new and REGRIND not in _priced(verdict):
        return None
    lifts = _asked_for(verdict, "lift")
    lines = [
        OrderLine(
            1,
            f"{'lobe of' if new else 'grind'} {lobe} to a lift of {_both(lift)}",
            CASE if new else "the old shaft",
            (
                ("base circle", "as the old one" if new else "no smaller than cleans it all round"),
                ("flanks and angle", "as the old lobe, its unworn edge as the pattern"),
                ("found now", _both(middle(read[0])) if (read := cams.lift(lobe)) else "not read"),
            ),
        )
        for lobe, lift in lifts.items()
    ]
    asked = [
        _size(d.LOBE, lobe, d.LIFT.name, (lift - LIFT_TOLERANCE, lift + LIFT_TOLERANCE), "by indicator over one turn")
        for lobe, lift in lifts.items()
    ]
    return OrderDraft(
        key=f"{d.KEY}/shaft",
        system=d.KEY,
        verdict=verdict.id,
        title="Camshaft to be made" if new else "Grind the lobes over",
        to="camshaft grinder",
        lines=tuple(lines),
        asked=tuple(asked),
        leave_alone=("The old camshaft goes as the pattern and comes back.",) if new else LEAVE_ALONE,
        needs=verdict.chosen.needs,
        rests_on=_rests_on(cams, verdict.chosen.items),
        cautions=warned("cam grinding"),
        priced=CAM_MADE if new else REGRIND,
    )


def _rollers(cams: CamSet, verdict: Verdict) -> OrderDraft | None:
    if ROLLER_MADE not in _priced(verdict):
        return None
    low, high = _asked_for(verdict, "play low"), _asked_for(verdict, "play high")
    lines, asked, drawn = [], list[AskedSize](), list[Drawing]()
    for item in verdict.chosen.items:
        outside, width, pin = roller_sizes(item, cams)
        play = (low[item], high[item])
        hole = None if pin is None else (pin[1] + play[0], pin[1] + play[0] + max(play[1] - play[0] - PIN_TOLERANCE, 0.0))
        detail = [
            ("outside", _band(outside) if outside else "as the old roller where it is unworn; not read yet"),
            ("width", _band(width) if width else "not read yet"),
            ("pin", _band(pin) if pin else "as the old pin where it is unworn; not read yet"),
            ("play on the pin", _band(play)),
            ("oil", "an oil hole or groove as the old one has"),
        ]
        lines.append(OrderLine(1, f"roller and pin for {item}", CASE, tuple(detail)))
        for feature, limits in ((d.ROLLER, outside), (d.ROLLER_WIDTH, width), (d.PIN, pin), (d.EYE, hole)):
            if limits is not None:
                asked.append(_size(d.FOLLOWER, item, feature.name, limits))
        if outside and width and pin and hole:
            drawn.append(_roller_drawing(item, cams, outside=outside, hole=hole, width=width, pin=pin))
    return OrderDraft(
        key=f"{d.KEY}/rollers",
        system=d.KEY,
        verdict=verdict.id,
        title="Rollers and pins",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old rollers and pins: they go with the order and come back.",),
        needs=verdict.chosen.needs,
        rests_on=_rests_on(cams, verdict.chosen.items),
        cautions=warned("pressing"),
        priced=ROLLER_MADE,
    )


def roller_sizes(item: str, cams: CamSet) -> tuple[Limits | None, Limits | None, Limits | None]:
    """Limits of a new roller's outside and width and of its pin [m]: what the old were made to, else their unworn places."""

    def made_to(feature: Feature, tolerance: float) -> Limits | None:
        nominal, read = cams.reader.nominal(feature, item), cams.reader.largest(feature, item)
        if read is None:
            return None
        size = nominal if nominal is not None and abs(nominal - read.value) < 0.03 * read.value else read.value
        return size - tolerance, size

    return (
        made_to(d.ROLLER, ROLLER_TOLERANCE),
        made_to(d.ROLLER_WIDTH, WIDTH_TOLERANCE),
        made_to(d.PIN, PIN_TOLERANCE),
    )


def _roller_drawing(item: str, cams: CamSet, *, outside: Limits, hole: Limits, width: Limits, pin: Limits) -> Drawing:
    length = (2 * width[1], 2 * width[1] + 0.010 * d.INCH)
    return Drawing(
        number=f"F{number(item)}",
        title=f"Roller and pin, {item}",
        part="cam roller",
        item=item,
        material=CASE,
        finish="outside and hole ground after hardening, ends square",
        views=(
            plain_bush_section(outside=outside, inside=hole, length=width, title="Roller, section"),
            pin_view(diameter=pin, length=length, title="Pin, length to suit the fork"),
        ),
        notes=(
            "The case .08 in deep at least (Mathot, 1905): a file must skate.",
            "Length of the pin as the old one, which goes with this sheet; leave its ends soft where they are riveted over.",
        ),
        job=cams.bench.snapshot.outline.name,
    )


def _followers(cams: CamSet, verdict: Verdict) -> OrderDraft | None:
    if FOLLOWER_MADE not in _priced(verdict):
        return None
    guides, low, high = (_asked_for(verdict, word) for word in ("guide", "play low", "play high"))
    lines, asked = [], list[AskedSize]()
    for item, guide in guides.items():
        finished = [spot.value for stage in ("fitted", "returned") for spot in cams.reader.spots(d.GUIDE, item, stage=stage)]
        hole = min(finished, default=guide)
        body = (hole - high[item], hole - low[item])
        lines.append(
            OrderLine(
                1,
                f"follower for {item}, body {_band(body)}",
                CASE,
                (
                    (
                        "guide",
                        f"{_both(hole)}, {'read after reaming' if finished else 'asked of the reamer, not finished yet'}",
                    ),
                    ("all else", "as the old follower, which goes with the order"),
                ),
            )
        )
        asked.append(_size(d.FOLLOWER, item, d.BODY.name, body))
    return OrderDraft(
        key=f"{d.KEY}/followers",
        system=d.KEY,
        verdict=verdict.id,
        title="Followers to the reamed guides",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        leave_alone=("The old followers: they go with the order as patterns and come back.",),
        needs=verdict.chosen.needs,
        rests_on=_rests_on(cams, verdict.chosen.items),
        priced=FOLLOWER_MADE,
    )


def _bushes(cams: CamSet, verdict: Verdict) -> OrderDraft | None:
    if BUSH_MADE not in _priced(verdict):
        return None
    low, high = _asked_for(verdict, "bore low"), _asked_for(verdict, "bore high")
    lines = tuple(
        OrderLine(
            1,
            f"bush {item} and bore it in line to {_band((low[item], high[item]))}",
            "leaded bronze, C93200 or as the old",
            (
                ("journal", f"read at {_both(low[item])} less the clearance; the camshaft goes with the order"),
                ("in line", "all bearings on one axis, at the old distance from the crankshaft"),
                ("oil holes", "opened through, edges broken"),
            ),
        )
        for item in low
    )
    asked = tuple(_size(d.CAM, item, d.BORE.name, (low[item], high[item]), "in two directions") for item in low)
    return OrderDraft(
        key=f"{d.KEY}/bushes",
        system=d.KEY,
        verdict=verdict.id,
        title="Cam bearing bushes",
        to="line borer",
        lines=lines,
        asked=asked,
        leave_alone=("The centre distance of the timing gears.", *LEAVE_ALONE),
        needs=verdict.chosen.needs,
        rests_on=_rests_on(cams, verdict.chosen.items),
        cautions=warned("pressing"),
        priced=BUSH_MADE,
    )


def _rests_on(cams: CamSet, items: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(
        reading.id
        for key, readings in cams.bench.snapshot.by_feature.items()
        if key.item in items and key.part in (d.CAM, d.LOBE, d.FOLLOWER)
        for reading in readings
    )
