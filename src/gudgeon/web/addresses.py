"""Every address of a page, built in one place."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote, urlencode


@dataclass(frozen=True, slots=True)
class Addresses:
    """The addresses of one job's pages."""

    job: str

    @property
    def root(self) -> str:
        """Where all of them start."""
        return f"/job/{quote(self.job, safe='')}" if self.job else ""

    def engine(self) -> str:
        """The home page of the job."""
        return f"{self.root}/"

    def page(self, name: str) -> str:
        """A page without parts: "plan", "record", "orders" ..."""
        return self.engine() if name == "engine" else f"{self.root}/{name}"

    def findings(self, system: str, anchor: str = "") -> str:
        """A system's findings."""
        return f"{self.root}/findings/{quote(system, safe='')}" + (f"#{anchor}" if anchor else "")

    def why(self, system: str, part: str, item: str, quantity: str) -> str:
        """What stands behind one finding."""
        return f"{self.findings(system)}/why?{urlencode({'part': part, 'item': item, 'quantity': quantity})}"

    def drawing_called_for(self, system: str, place: str) -> str:
        """What the drawing of one place must have called for, and its pictures."""
        return f"{self.findings(system)}/drawing?{urlencode({'place': place})}"

    def bench(self, system: str, block: int | None = None, line: int | None = None) -> str:
        """A system's bench sheet, one block of it, one line of that."""
        place = f"{self.root}/bench/{quote(system, safe='')}"
        asked = {name: value for name, value in (("block", block), ("line", line)) if value is not None}
        return f"{place}?{urlencode(asked)}" if asked else place

    def remedies(self, system: str) -> str:
        """What could be done."""
        return f"{self.root}/remedies/{quote(system, safe='')}"

    def draft(self, key: str) -> str:
        """An order that has not gone out."""
        return f"{self.root}/orders/draft/{quote(key, safe='')}"

    def sent(self, identity: str) -> str:
        """An order that has."""
        return f"{self.root}/orders/sent/{quote(identity, safe='')}"

    def picture(self, digest: str, size: str = "") -> str:
        """A photo's bytes: as it came, "small" or "large"."""
        return f"{self.root}/pictures/{quote(digest, safe='')}" + (f"?size={size}" if size else "")

    def look(self, digest: str) -> str:
        """A photo's page."""
        return f"{self.root}/pictures/{quote(digest, safe='')}/look"

    def part(self, line: str) -> str:
        """A noted part's page."""
        return f"{self.root}/parts/{quote(line, safe='')}"

    def note(self, **asked: str) -> str:
        """The form for noting a part, filled with what is known."""
        return self._asked(f"{self.root}/parts/note", asked)

    def parts(self, **asked: str) -> str:
        """The list of parts, as far as it is narrowed."""
        return self._asked(f"{self.root}/parts", asked)

    @staticmethod
    def _asked(place: str, asked: dict[str, str]) -> str:
        given = {name: value for name, value in asked.items() if value}
        return f"{place}?{urlencode(given)}" if given else place


def anchor(text: str) -> str:
    """A text as the name of a place on a page."""
    return "".join(letter if letter.isalnum() else "-" for letter in text.lower()).strip("-")
