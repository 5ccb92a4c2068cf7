"""The trade's tables: materials, sizes, threads, fits, rules of practice, gauges and cautions, each row with its source."""

from gudgeon.handbook.cautions import CautionRow, caution_subjects, cautions
from gudgeon.handbook.gauges import GaugeKind, gauge_kind, gauge_kinds
from gudgeon.handbook.materials import Material, material, materials
from gudgeon.handbook.rules import RuleRow, rules, subjects
from gudgeon.handbook.shelf import BadTable, Source, UnknownName
from gudgeon.handbook.sizes import Family, Size, families, family, named_sizes, sizes

__all__ = [
    "BadTable",
    "CautionRow",
    "Family",
    "GaugeKind",
    "Material",
    "RuleRow",
    "Size",
    "Source",
    "UnknownName",
    "caution_subjects",
    "cautions",
    "families",
    "family",
    "gauge_kind",
    "gauge_kinds",
    "material",
    "materials",
    "named_sizes",
    "rules",
    "sizes",
    "subjects",
]
