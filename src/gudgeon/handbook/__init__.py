"""The trade's tables: materials, sizes, threads, fits, rules of practice, gauges and cautions, each row with its source."""

from gudgeon.handbook.cautions import CautionRow, caution_subjects, cautions
from gudgeon.handbook.gauges import GaugeKind, gauge_kind, gauge_kinds
from gudgeon.handbook.limits_and_fits import Limits, NamedFit, ansi_fit, iso_fit, iso_limits, iso_tolerance, newall_fit
from gudgeon.handbook.materials import Material, material, materials
from gudgeon.handbook.oversizes import Oversize, oversizes
from gudgeon.handbook.pitches import GearPitch, ToothForm, cutter_number, gear_pitches, pressure_angles, tooth_forms
from gudgeon.handbook.proportions import Proportion, proportions
from gudgeon.handbook.rules import RuleRow, rules, subjects
from gudgeon.handbook.shelf import BadTable, Source, UnknownName
from gudgeon.handbook.sizes import Family, Size, families, family, named_sizes, sizes
from gudgeon.handbook.threads import Thread, threads

__all__ = [
    "BadTable",
    "CautionRow",
    "Family",
    "GaugeKind",
    "GearPitch",
    "Limits",
    "Material",
    "NamedFit",
    "Oversize",
    "Proportion",
    "RuleRow",
    "Size",
    "Source",
    "Thread",
    "ToothForm",
    "UnknownName",
    "ansi_fit",
    "caution_subjects",
    "cautions",
    "cutter_number",
    "families",
    "family",
    "gauge_kind",
    "gauge_kinds",
    "gear_pitches",
    "iso_fit",
    "iso_limits",
    "iso_tolerance",
    "material",
    "materials",
    "named_sizes",
    "newall_fit",
    "oversizes",
    "pressure_angles",
    "proportions",
    "rules",
    "sizes",
    "subjects",
    "threads",
    "tooth_forms",
]
