"""What could be done about threads, balls and keys, each its own matter."""

from __future__ import annotations

from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.quantity import Said
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.fasteners import description as d
from gudgeon.systems.fasteners.balls import DIFFER
from gudgeon.systems.fasteners.keys import SLACK, Keyed
from gudgeon.systems.fasteners.screws import CRESTS, Screw, crest_loss, crest_practice, torque_to_use
from gudgeon.systems.fasteners.store import Store
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, listed, prospect_of, remedy_of, worn

SCREWS, BALLS, KEYS = "fasteners: threads", "fasteners: loose balls", "fasteners: keys"
SCREW_MADE, HOLE_MENDED, BALLS_BOUGHT, KEY_MADE = "screw made", "thread bushed", "set of balls", "key made"


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    store = Store.of(bench)
    if "matters" not in store.worked_out:
        found: list[tuple[Matter, tuple[Way, ...]]] = []
        if store.screws:
            matter = _screw_matter(store)
            found.append((matter, _screw_ways(store, matter)))
        if store.balls:
            matter = _ball_matter(store)
            found.append((matter, _ball_ways(store, matter)))
        if store.keys:
            matter = _key_matter(store)
            found.append((matter, _key_ways(store, matter)))
        store.worked_out["matters"] = tuple(found)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], store.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


_READ_FOR = {CRESTS: ("thread", "outside diameter"), DIFFER: ("ball", "diameter"), SLACK: ("key", "keyway width in hub")}


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(
        prospect_of(matter, ways, could_be_read(matter, _READ_FOR, "it was not read, and decides whether it may stay"))
        for matter, ways in matters(bench)
    )


def _screw_matter(store: Store) -> Matter:
    known = [screw for screw in store.screws if screw.thread is not None]
    now = {screw.item: draws for screw in known if (draws := crest_loss(screw)) is not None}
    return Matter(
        system=d.KEY,
        subject=SCREWS,
        bench=store.bench,
        items=tuple(dict.fromkeys(screw.item for screw in store.screws)),
        quantities=(
            Quantity(
                name=CRESTS,
                part="thread",
                dimension="length",
                practices={screw.item: crest_practice(screw) for screw in known},
            ),
        ),
        now={CRESTS: now},
    )


def _bad(store: Store, matter: Matter) -> tuple[Screw, ...]:
    past = worn(matter, CRESTS)
    return tuple(screw for screw in store.screws if screw.bad or screw.item in past)


def told_apart(screw: Screw) -> Need:
    """That a thread be told apart before anything is cut to it."""
    return Need(
        kind="reading",
        what=f"{screw.item}: thread told apart",
        met=screw.thread is not None and not screw.settle,
        why=screw.settle or "one thread stands alone",
        part=screw.part,
        item=screw.item,
        feature="flank angle gauge that fits",
    )


def _screw_ways(store: Store, matter: Matter) -> tuple[Way, ...]:
    bad = _bad(store, matter)
    spoilt = np.zeros(store.bench.count, dtype=np.bool_) if any(screw.bad for screw in store.screws) else None
    ways = [
        Way(
            name="threads-clean",
            title=Said("Clean and chase the threads with the die or tap that they are, and use them again"),
            action="run on",
            intervention="removable",
            original="Every screw stays.",
            items=matter.items,
            allowed=spoilt,
            why=f"{listed([screw.item for screw in store.screws if screw.bad])} would be used again as noted",
            needs=tuple(told_apart(screw) for screw in store.screws if screw.thread is not None and screw.settle),
            steps=(
                step(
                    d.KEY,
                    "chase",
                    "Wire-brush, oil, run a nut of the right thread on by hand; chase only what binds",
                    hours=hours(0.1, 0.2, 0.4, len(matter.items)),
                    hold="every nut runs by hand to its place; none forced",
                    works=("cleaning",),
                ),
            ),
            for_it=(Said("Old screws have the maker's heads and marks; keep them where they are sound."),),
            against_it=(Said("A tap of the wrong standard cuts a new thread across the old one."),)
            + ((Said(f"Worn or as noted: {listed([each.item for each in bad])}."),) if bad else ()),
        )
    ]
    if bad:
        ways.append(_new_screws(matter, bad))
        holes = tuple(screw for screw in bad if screw.stripped_hole)
        if holes:
            ways.append(_bushed_holes(matter, holes, bad))
    return tuple(ways)


def _parameters(screws: tuple[Screw, ...], word: str) -> dict[str, float]:
    found: dict[str, float] = {}
    for screw in screws:
        assert screw.thread is not None
        found |= {
            f"{screw.item} {word}": 1.0,
            f"{screw.item} major": screw.thread.major,
            f"{screw.item} pitch": screw.thread.pitch,
            f"{screw.item} flank": screw.thread.flank_angle,
        }
    return found


def _after(matter: Matter, screws: tuple[Screw, ...]) -> dict[str, dict[str, np.ndarray[tuple[int], np.dtype[np.float64]]]]:
    return {CRESTS: {screw.item: np.zeros(matter.bench.count) for screw in screws}}


def _new_screws(matter: Matter, bad: tuple[Screw, ...]) -> Way:
    made = tuple(screw for screw in bad if screw.thread is not None)
    stripped = [screw.item for screw in bad if screw.stripped_hole]
    return Way(
        name="threads-new",
        title=Said(f"Make {listed([screw.item for screw in made])} new to the old thread, head and length"),
        action="remake",
        intervention="removable",
        original="Sound screws stay; the old ones are tagged and kept.",
        items=matter.items,
        after=_after(matter, made),
        allowed=np.zeros(matter.bench.count, dtype=np.bool_) if stripped else None,
        why=f"the stripped hole of {listed(stripped)} would stay",
        parameters=_parameters(made, "new screw"),
        priced=(PricedItem(SCREW_MADE, len(made)),),
        needs=tuple(told_apart(screw) for screw in made),
        steps=(
            step(
                d.KEY, "screws-made", "Screws made to the sheet, or bought where the thread is still standard", shop=SCREW_MADE
            ),
            step(
                d.KEY,
                "screws-tried",
                "Try each new screw by hand in its own hole",
                hours=hours(0.1, 0.1, 0.3, len(made)),
                after=("screws-made",),
                hold="each runs in by hand its whole length",
            ),
        ),
        for_it=(Said("Removable, and looks as its maker meant it."),),
        against_it=(Said("Bought screws of the wrong head show from across the field; have the head made too."),),
    )


def _bushed_holes(matter: Matter, holes: tuple[Screw, ...], bad: tuple[Screw, ...]) -> Way:
    made = tuple(screw for screw in bad if screw.thread is not None)
    mended = tuple(screw for screw in holes if screw.thread is not None)
    return Way(
        name="threads-bushed",
        title=Said(
            f"Bush the holes of {listed([screw.item for screw in mended])} back to their own thread, and make new screws"
        ),
        action="make good",
        intervention="irreversible",
        original="Castings stay, with a threaded bush in the hole; sound screws stay.",
        items=matter.items,
        after=_after(matter, made),
        parameters={**_parameters(made, "new screw"), **_parameters(mended, "bushed")},
        priced=(PricedItem(HOLE_MENDED, len(mended)), PricedItem(SCREW_MADE, len(made))),
        needs=(
            *(told_apart(screw) for screw in made),
            *(
                reading_need(
                    screw.reader,
                    d.THREAD[screw.part]["engaged length"],
                    screw.item,
                    why="the bush is as long as the old thread, and the metal beside it must bear it",
                )
                for screw in mended
            ),
        ),
        steps=(
            step(d.KEY, "holes-bushed", "Holes bored out square, bushes screwed in and pinned", shop=HOLE_MENDED),
            step(d.KEY, "bushed-screws", "Screws made to the sheet", shop=SCREW_MADE),
        ),
        risks=(
            Risk(
                "the drill breaks into a water space beside the hole",
                Range(0.02, 0.05, 0.15, OWN),
                "the hole leaks: seal or stitch",
            ),
        ),
        for_it=(Said("As strong as new, and the thread stays what it was."),),
        against_it=(Said("Metal goes for good: sound the wall beside the hole first."),),
    )


def _ball_matter(store: Store) -> Matter:
    now = {balls.item: balls.differ for balls in store.balls if balls.differ is not None}
    return Matter(
        system=d.KEY,
        subject=BALLS,
        bench=store.bench,
        items=tuple(balls.item for balls in store.balls),
        quantities=(
            Quantity(
                name=DIFFER,
                part="ball",
                dimension="length",
                practices={balls.item: balls.practised for balls in store.balls},
            ),
        ),
        now={DIFFER: now},
    )


def _ball_ways(store: Store, matter: Matter) -> tuple[Way, ...]:
    known = tuple(balls for balls in store.balls if balls.nominal is not None)
    ways = [
        Way(
            name="balls-run-on",
            title=Said("Wash the balls and run them on, the whole set or none"),
            action="run on",
            intervention="removable",
            original="Every ball stays.",
            items=matter.items,
            for_it=(Said("Balls without pits, alike within two or three tenths, run another life."),),
            against_it=(Said("One new ball among old ones is the largest, and carries everything."),),
        )
    ]
    if known:
        counts = {balls.item: balls.full or balls.count or 0 for balls in known}
        parameters: dict[str, float] = {}
        for balls in known:
            parameters |= {f"{balls.item} ball": balls.nominal or 0.0, f"{balls.item} count": float(counts[balls.item])}
        ways.append(
            Way(
                name="balls-new",
                title=Said("Fit new balls, one lot to each race"),
                action="buy in",
                intervention="removable",
                original="Races stay; the old balls are kept in a bag.",
                items=matter.items,
                after={
                    DIFFER: {balls.item: balls.reader.even(f"new balls, {balls.item}", 0.0, 0.0002 * d.INCH) for balls in known}
                },
                parameters=parameters,
                priced=(PricedItem(BALLS_BOUGHT, len(known)),),
                needs=tuple(
                    reading_need(balls.reader, d.BALL["ball count"], balls.item, why="a full ring is ordered, and two to lose")
                    for balls in known
                ),
                steps=(
                    step(d.KEY, "balls-bought", "Balls of one lot", shop=BALLS_BOUGHT),
                    step(
                        d.KEY,
                        "balls-fitted",
                        "Set the balls in grease, count them in, turn by hand",
                        hours=hours(0.3, 0.5, 1.0, len(known)),
                        after=("balls-bought",),
                        hold="balls counted in; turns without a catch and without play to be felt",
                    ),
                ),
                for_it=(Said("Cheap, and better than the maker could buy."),),
                against_it=(Said("A pitted race ruins new balls: look at it with a glass first."),),
            )
        )
    return tuple(ways)


def _key_matter(store: Store) -> Matter:
    now = {key.item: key.slack for key in store.keys if key.slack is not None}
    return Matter(
        system=d.KEY,
        subject=KEYS,
        bench=store.bench,
        items=tuple(key.item for key in store.keys),
        quantities=(
            Quantity(name=SLACK, part="key", dimension="length", practices={key.item: key.practised for key in store.keys}),
        ),
        now={SLACK: now},
    )


def _key_ways(store: Store, matter: Matter) -> tuple[Way, ...]:
    past = worn(matter, SLACK)
    fitted = tuple(key for key in store.keys if key.keyway is not None and (key.item in past or key.sheared))
    fitted = fitted or tuple(key for key in store.keys if key.keyway is not None)
    sheared = [key.item for key in store.keys if key.sheared]
    ways = [
        Way(
            name="keys-run-on",
            title=Said("Drive the old keys home again"),
            action="run on",
            intervention="removable",
            original="Keys and keyways stay.",
            items=matter.items,
            allowed=np.zeros(store.bench.count, dtype=np.bool_) if sheared else None,
            why=f"{listed(sheared)} would be used again as noted",
            against_it=(
                Said("A loose taper key is a wreck waiting; a tin strip under it is a stop-gap (Stephenson 1903)."),
                *((Said(f"Slack as found: {listed(past)}."),) if past else ()),
            ),
            for_it=(Said("A key that is tight on its sides, and beds top and bottom, may stay."),),
        )
    ]
    if fitted:
        ways.append(_new_keys(matter, fitted))
    return tuple(ways)


def _new_keys(matter: Matter, fitted: tuple[Keyed, ...]) -> Way:
    parameters: dict[str, float] = {}
    for key in fitted:
        assert key.keyway is not None
        parameters[f"{key.item} width"] = key.keyway.value
    return Way(
        name="keys-new",
        title=Said(f"Clean the keyways up and fit new keys to them: {listed([key.item for key in fitted])}"),
        action="remake",
        intervention="re-doable",
        original="Shafts and hubs stay, their keyways a little wider where they were bruised.",
        items=matter.items,
        after={
            SLACK: {key.item: key.reader.even(f"key fitted, {key.item}", -0.0003 * d.INCH, 0.0005 * d.INCH) for key in fitted}
        },
        parameters=parameters,
        priced=(PricedItem(KEY_MADE, len(fitted)),),
        needs=tuple(
            reading_need(key.reader, d.KEYS[name], key.item, why="a key is made from its sheet")
            for key in fitted
            for name in ("length", "thickness")
        ),
        steps=(
            step(
                d.KEY,
                "keyways",
                "File or mill both keyways true and alike in width, read them",
                hours=hours(0.5, 1.0, 2.5, len(fitted)),
                hold="shaft's and hub's keyway read after truing, alike within half a thou",
            ),
            step(d.KEY, "keys-made", "Keys made over size in width and thickness", shop=KEY_MADE, after=("keyways",)),
            step(
                d.KEY,
                "keys-fitted",
                "File each key to its keyways with blue: tight on the sides, bedding its whole length on top",
                hours=hours(0.7, 1.5, 3.0, len(fitted)),
                after=("keys-made",),
                hold="blue along the whole of both sides and the top; hub does not rock",
                works=("flywheel work",),
            ),
        ),
        for_it=(Said("Tight again, and the next key can be fitted the same way."),),
        against_it=(Said("A keyway opened too far weakens shaft and hub: then a stepped key, not a wider cut."),),
        works=("flywheel work",),
    )


def tightening(store: Store) -> tuple[tuple[Screw, float], ...]:
    """Threads with the torque to use on them [N m]."""
    found = [(screw, torque_to_use(screw)) for screw in store.screws]
    return tuple((screw, told[0]) for screw, told in found if told is not None)
