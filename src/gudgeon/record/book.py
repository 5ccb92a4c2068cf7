"""The printed record: ``Book`` holds what it is made of, ``book`` prints it."""

from gudgeon.record.binding import book
from gudgeon.record.contents import Book

__all__ = ["Book", "book"]
