"""A small job of an invented engine: what the owner typed, found, decided and ordered."""

import io

from PIL import Image

from gudgeon.engine.finding import Finding
from gudgeon.engine.fold import fold
from gudgeon.engine.history import sealed
from gudgeon.engine.order import AskedSize, Order, OrderDraft, OrderEvent, OrderLine
from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.plain import to_plain
from gudgeon.engine.reading import Doubt
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.remedy import Caution, Remedy
from gudgeon.engine.snapshot import PictureNote
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount, Said
from gudgeon.record import Book

IN = 0.0254
OUTLINE = Outline(name="Harrow marine engine", place="Lower Quay", serial="412", cylinders=2, strokes=4, bore_typed="5 1/8 in")


def photo(size=(400, 300), colour=(120, 90, 60), form="JPEG", orientation=None):
    image = Image.new("RGB", size, colour)
    out = io.BytesIO()
    exif = Image.Exif()
    if orientation:
        exif[0x0112] = orientation
    image.save(out, form, **({"exif": exif} if form == "JPEG" else {}))
    return out.getvalue()


def entries(*kinds_and_bodies, person="A. Owner"):
    out, previous = [], "0" * 64
    for n, (kind, body) in enumerate(kinds_and_bodies, start=1):
        at = f"2026-03-{1 + n // 60:02d}T{9 + n % 10:02d}:{n % 60:02d}:00+00:00"
        entry = sealed(seq=n, id=f"e{n}", kind=kind, body=body, person=person, at=at, previous=previous)
        out.append(entry)
        previous = entry.digest
    return out


def reading(item, feature, typed, *, part="cylinder", station="", direction="", row="1", **more):
    return (
        "reading",
        {
            "row": row,
            "part": part,
            "item": item,
            "feature": feature,
            "station": station,
            "direction_deg": direction,
            "reading": typed,
            "unit": "in",
            "instrument": "inside_mic",
            **more,
        },
    )


def finding(item="cyl 1", *, value=0.006, standing="past", **more):
    said = {
        "system": "cylinders",
        "part": "cylinder",
        "item": item,
        "quantity": "out of round, top",
        "dimension": "length",
        "value": value and value * IN,
        "low": value and (value - 0.0004) * IN,
        "high": value and (value + 0.0004) * IN,
        "target_low": 0.0,
        "target_high": 0.001 * IN,
        "target_origin": Origin("E", "common practice"),
        "limit": 0.005 * IN,
        "limit_origin": Origin("E", "A handbook", "p. 12"),
        "chance_past_limit": 0.98 if value else None,
        "standing": standing,
        "sentence": Said("Out of round by {0}; rings will not follow it.", (Amount(0.006 * IN, "length"),)),
        "formula": "greatest less least diameter at one level",
    }
    return Finding(**{**said, **more})


def remedy(action="make good", **more):
    said = {
        "key": "cylinders/bore/.020",
        "system": "cylinders",
        "subject": "cylinders: bores",
        "title": Said("Bore to {0} over", (Amount(0.020 * IN, "length"),)),
        "action": action,
        "items": ("cyl 1",),
        "intervention": "irreversible",
        "original": "the old bore is lost",
        "steps": (StepDraft(key="cylinders/bore", title="bore and hone", system="cylinders"),),
    }
    return Remedy(**{**said, **more})


ASKED = AskedSize(
    part="cylinder", item="cyl 1", feature="bore diameter", dimension="length", lower=5.145 * IN, upper=5.146 * IN
)
DRAFT = OrderDraft(
    key="cylinders/bore",
    system="cylinders",
    verdict="cylinders: bores",
    title="Bore cylinder 1",
    to="a machine shop",
    lines=(OrderLine(1, "bore and hone a cylinder"),),
    asked=(ASKED,),
)


def verdict(action="make good", **more):
    return Verdict(
        id="",
        subject="cylinders: bores",
        chosen=remedy(action, **more),
        reason="It would burn oil as it stands.",
        findings=(finding(),),
        rejected=(("cylinders/sleeve", Said("Sleeve to the old size")),),
    )


def history():
    picture = PictureNote(digest="ab" * 32, name="bore 1.jpg", item="cyl 1")
    note = PartNote(
        id="", part="cylinder", item="cyl 1", marks="stamped I", condition="ridge at the top #1", pictures=(picture.digest,)
    )
    return entries(
        ("job", {"format": 1, "outline": to_plain(OUTLINE)}),
        reading(
            "cyl 1", "bore diameter", "5.131", station="top of ring travel", direction="90", row="7", note="after cleaning"
        ),
        reading("cyl 1", "bore diameter", "5 1/8", station="below ring travel", direction="0", row="8"),
        ("part", to_plain(note)),
        ("picture", to_plain(picture)),
        ("refused", {"row": "9", "line": "cylinder,cyl 2,bore,5..13", "reason": "two points in one figure"}),
        reading("cyl 1", "bore diameter", "5.1311", station="top of ring travel", direction="90", supersedes="e2"),
        ("verdict", to_plain(verdict())),
        (
            "order",
            to_plain(Order(id="", draft=DRAFT, shop="Quayside Boring", price=480.0, promised="2026-05-02", person="", at="")),
        ),
    )


def reckoning(findings=None):
    key = FeatureKey("cylinder", "cyl 1", "bore diameter")
    spec = Specification(
        key=key,
        dimension="length",
        nominal=5.125 * IN,
        low=5.1246 * IN,
        high=5.1256 * IN,
        probability=0.93,
        origin=Origin("B", "readings below ring travel"),
        written="5 1/8",
        runners_up=(Candidate(0.130, "130 mm", "", 0.06),),
        evidence=("Below ring travel it reads 5 1/8, where no ring ever ran.",),
        settle="the bore of cylinder 2 below ring travel",
    )
    snapshot = fold(history())
    return Reckoning(
        made_from="x",
        estimates={},
        specifications={key: spec},
        findings=tuple(findings or (finding(), finding("cyl 2", value=None, standing="not measured", sentence=Said("")))),
        remedies=(),
        advice=(),
        doubts=(Doubt(reading=snapshot.readings[0], likely=None, slip="", sentence="Row 8 sits low of its neighbours."),),
        remarks=("No reading was taken at 45°.",),
        unknown=(FeatureKey("sundry", "oil can", "capacity"),),
        pictures=(),
    )


SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 40"><path d="M0 0H80V40H0Z" stroke="#000" fill="none"/></svg>'


def contents(**more):
    log = history()
    snapshot = fold(log)
    said = {
        "outline": OUTLINE,
        "snapshot": snapshot,
        "reckoning": reckoning(),
        "head": snapshot.head,
        "date": "2026-04-01",
        "edition": "first",
        "titles": {"cylinders": "Cylinders, pistons and rings"},
        "svgs": {"engine": SVG, "cylinders: bore of cylinder 1 opened out": SVG},
        "pictures": {"ab" * 32: photo()},
        "forecast": ("It will run by the first of May, 7 in 10.",),
        "steps": (("bore and hone", "18 April to 2 May"),),
        "cautions": (Caution("Weight", "A cylinder weighs more than one person should lift.", "common practice"),),
        "history": tuple(log),
    }
    return Book(**{**said, **more})


def event(state, order="e9"):
    return (
        "order-event",
        {"order": order, "event": to_plain(OrderEvent(state=state, on="2026-04-20", note="", person="", at=""))},
    )


def done(key="cylinders/bore"):
    return ("done", to_plain(StepDone(key=key, on="2026-04-20", person="")))
