"""Worn engines that never were, with the truth about each: to hold the reconstruction against.

Written from how makers of 1900 to 1930 dimensioned their engines and how engines wear, and from nothing in the package: it
shares no constant and no code with what it tests. Figures marked below as common practice or from memory are the writer's.
"""
