"""Sentences about the readings as a whole: each kind of bad input is pointed out, and nothing is dropped."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from gudgeon.metrology.weigh import weigh
from tests.metrology.rows import job, nothing_known, row


def remarks(lines: Iterable[dict[str, str]]) -> str:
    return "\n".join(weigh(job(lines), nothing_known).remarks)


def bores(**changed: str) -> list[dict[str, str]]:
    lines = []
    for number in (1, 2, 3):
        for direction in ("0", "90"):
            spot = f"cyl_{number}_{direction}"
            if changed.get(spot) != "left out":
                temperature = changed.get(f"{spot}_at", "18")
                lines.append(
                    row("cylinder", f"cyl {number}", "bore diameter", changed.get(spot, "4.0020"), station="1",
                        direction_deg=direction, part_temp_c=temperature, unit=changed.get(f"{spot}_in", "in"))
                )  # fmt: skip
    return lines


def test_good_readings_need_no_remark() -> None:
    assert remarks(bores()) == ""


def test_a_missing_direction_is_pointed_out() -> None:
    assert "cyl 2 bore diameter: nothing was read at 90°" in remarks(bores(cyl_2_90="left out"))


def test_one_direction_only_is_pointed_out() -> None:
    lines = [line for line in bores() if line["direction_deg"] == "90"]
    assert "read in one direction only (90°); out-of-round cannot be told" in remarks(lines)


def test_mixed_units_are_pointed_out() -> None:
    said = remarks(bores(cyl_2_0="101.651", cyl_2_0_in="mm"))
    assert "cyl 2 bore diameter: 1 of its readings in inches, 1 in millimetres" in said


@pytest.mark.parametrize(("celsius", "word"), [("55", "hot"), ("2", "cold")])
def test_a_part_read_far_from_the_others_temperature_is_pointed_out(celsius: str, word: str) -> None:
    said = remarks(bores(cyl_3_0_at=celsius))
    assert f"cyl 3 bore diameter was read {word}, at {celsius} °C where the rest was at 18 °C" in said


def test_no_temperature_at_all_is_pointed_out_once() -> None:
    said = remarks([{**line, "part_temp_c": ""} for line in bores()])
    assert said.count("No temperature is noted") == 1


def test_a_bore_smaller_than_the_piston_that_came_out_of_it_is_pointed_out() -> None:
    lines = [*bores(), row("piston", "piston 2", "skirt diameter", "4.0100", direction_deg="90")]
    assert "cyl 2 bore diameter reads nowhere larger than piston 2 skirt diameter that came out of it" in remarks(lines)
    fits = [*bores(), row("piston", "piston 2", "skirt diameter", "3.9980", direction_deg="90")]
    assert "came out of it" not in remarks(fits)


def test_readings_from_worn_places_only_are_pointed_out() -> None:
    lines = [row("pin", "pin 1", "diameter", "0.9990", station="rod", direction_deg=direction) for direction in ("0", "90")]
    assert "pin 1 diameter: every reading is from a worn place" in remarks(lines)
