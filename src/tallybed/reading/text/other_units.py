"""Units of weight that people tell and no file takes: what one of each is, for a refusal to say."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.units import GRAM, KILOGRAM, POUND, Unit


@dataclass(frozen=True, slots=True)
class OtherUnit:
    """A unit by its names; how many of a unit that is taken it has, or None where that is not one thing."""

    name: str
    names: tuple[str, ...]
    number: Fraction | None = None
    unit: Unit = KILOGRAM

    @property
    def words(self) -> str:
        """What one of it is, such as ``1 stone is 14 lb``."""
        if self.number is None:
            return f"a {self.name} is not the same everywhere"
        return f"1 {self.name} is {float(self.number):g} {self.unit.symbol}"


OTHER_UNITS = (
    # Weights and Measures Act 1985 of the United Kingdom, schedule 1: the stone is 14 pounds.
    OtherUnit("stone", ("stone", "stones", "st"), Fraction(14), POUND),
    # SI Brochure (9th edition, 2019), tables 7 and 8: deca is ten, milli a thousandth, a tonne 1000 kg.
    OtherUnit("dag", ("dag", "dkg", "deka"), Fraction(10), GRAM),
    OtherUnit("mg", ("mg", "milligram", "milligrams"), Fraction(1, 1000), GRAM),
    OtherUnit("tonne", ("tonne", "tonnes"), Fraction(1000)),
    # Common practice, no source: what people of these languages mean by their words at the market.
    OtherUnit("Pfund", ("pfund", "pfd"), Fraction(500), GRAM),
    OtherUnit("livre", ("livre", "livres"), Fraction(500), GRAM),
    OtherUnit("Zentner", ("zentner",), Fraction(50)),
    OtherUnit("quintal", ("quintal", "quintals"), Fraction(100)),
    # 112 lb in Britain and 100 lb in the United States (NIST Handbook 44, appendix C).
    OtherUnit("hundredweight", ("hundredweight", "hundredweights", "cwt")),
    OtherUnit("ton", ("ton", "tons")),
)
_OF_NAME = {name: one for one in OTHER_UNITS for name in one.names}
NAMES = "|".join(sorted(_OF_NAME, key=len, reverse=True))
"""A pattern of their names, the longest first."""


def other_unit(word: str) -> OtherUnit | None:
    """Return the unit that a word names and no file takes, or None."""
    return _OF_NAME.get(word.casefold())
