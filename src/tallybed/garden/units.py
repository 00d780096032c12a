"""Weights and lengths, exact, and how they are shown.

A weight is a whole or fractional number of nanograms, a length of nanometres,
both kept as exact rationals; rounding happens only where a value is shown.

Source of the factors: the international yard and pound agreement of 1959 as in
NIST Special Publication 811 (2008), appendix B.8, and NIST Handbook 44,
appendix C: 1 lb = 453.592 37 g exactly, 16 oz = 1 lb, 1 in = 25.4 mm exactly.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit people type: its names, and its size in the base unit."""

    symbol: str
    names: tuple[str, ...]
    size: Fraction
    """Nanograms for a weight, nanometres for a length, cubic millimetres for a volume."""


OUNCE = Unit("oz", ("oz", "ozs", "ounce", "ounces"), Fraction(28_349_523_125))
POUND = Unit("lb", ("lb", "lbs", "pound", "pounds"), Fraction(453_592_370_000))
GRAM = Unit("g", ("g", "gram", "grams", "gramme", "grammes"), Fraction(10**9))
KILOGRAM = Unit(
    "kg",
    ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
    Fraction(10**12),
)
_OF_POUNDS = (OUNCE, POUND)
_OF_KILOGRAMS = (GRAM, KILOGRAM)
WEIGHT_UNITS = (*_OF_POUNDS, *_OF_KILOGRAMS)
"""Add a harvest unit to one of the two above, with the source of its size."""
WEIGHT_UNIT_OF = {name: unit for unit in WEIGHT_UNITS for name in unit.names}
"""Units of weight by each of their names."""


def weight_units(*, metric: bool) -> tuple[Unit, ...]:
    """Return every unit of weight, those that a garden weighs in first."""
    return (*_OF_KILOGRAMS, *_OF_POUNDS) if metric else WEIGHT_UNITS


MILLIMETRE = Unit("mm", ("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(10**6))
CENTIMETRE = Unit("cm", ("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10**7))
METRE = Unit("m", ("m", "metre", "metres", "meter", "meters"), Fraction(10**9))
INCH = Unit("in", ("in", "inch", "inches", '"', "″"), Fraction(25_400_000))
FOOT = Unit("ft", ("ft", "foot", "feet", "'", "′"), Fraction(304_800_000))
YARD = Unit("yd", ("yd", "yds", "yard", "yards"), Fraction(914_400_000))
LENGTH_UNITS = (MILLIMETRE, CENTIMETRE, METRE, INCH, FOOT, YARD)

SQUARE_FOOT = (FOOT.size / METRE.size) ** 2
"""A square foot in square metres."""

LITRE = Unit("L", ("l", "litre", "litres", "liter", "liters"), Fraction(10**6))
CUBIC_FOOT = Unit("cu ft", ("cuft", "cubicfoot", "cubicfeet"), FOOT.size**3 / 10**18)
GALLON = Unit("gal", ("gal", "gals", "gallon", "gallons"), 231 * INCH.size**3 / 10**18)
"""The gallon of the United States: 231 cubic inches exactly (NIST Handbook 44, appendix C)."""
VOLUME_UNITS = (LITRE, CUBIC_FOOT)
"""Sizes in cubic millimetres; names as they are once the space within them is taken out."""
WATER_UNITS = (LITRE, GALLON)


@lru_cache(maxsize=20_000)
def _part(top: int, bottom: int, size_top: int, size_bottom: int) -> Fraction:
    """Return ``top / bottom`` over a size that is told likewise: few amounts are asked for, and often."""
    return Fraction(top * size_bottom, bottom * size_top)


@dataclass(frozen=True, slots=True, order=True)
class Weight:
    """A weight in nanograms, exact."""

    nanograms: Fraction = Fraction(0)

    @classmethod
    def of(cls, amount: int | Fraction, unit: Unit) -> Weight:
        """Return ``amount`` of ``unit`` as a weight."""
        return cls(Fraction(amount) * unit.size)

    def within(self, unit: Unit) -> Fraction:
        """Return this weight as an exact number of ``unit``."""
        return _part(*self.nanograms.as_integer_ratio(), *unit.size.as_integer_ratio())

    def __add__(self, other: Weight) -> Weight:
        return Weight(self.nanograms + other.nanograms)

    def __sub__(self, other: Weight) -> Weight:
        return Weight(self.nanograms - other.nanograms)

    def __mul__(self, factor: int | Fraction) -> Weight:
        return Weight(self.nanograms * factor)

    def __bool__(self) -> bool:
        """Return whether it is not zero."""
        return bool(self.nanograms)


_NOTHING = Weight()


def total(weights: Iterable[Weight]) -> Weight:
    """Return the exact sum of weights."""
    # Few denominators occur, and whole numbers add many times faster than fractions.
    parts: dict[int, int] = {}
    for weight in weights:
        numerator, denominator = weight.nanograms.as_integer_ratio()
        parts[denominator] = parts.get(denominator, 0) + numerator
    if not parts:
        return _NOTHING
    common = lcm(*parts)
    return Weight(Fraction(sum(number * (common // of) for of, number in parts.items()), common))


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """A length in nanometres, exact."""

    nanometres: Fraction = Fraction(0)

    @classmethod
    def of(cls, amount: int | Fraction, unit: Unit) -> Length:
        """Return ``amount`` of ``unit`` as a length."""
        return cls(Fraction(amount) * unit.size)

    def within(self, unit: Unit) -> Fraction:
        """Return this length as an exact number of ``unit``."""
        return _part(*self.nanometres.as_integer_ratio(), *unit.size.as_integer_ratio())

    def __add__(self, other: Length) -> Length:
        return Length(self.nanometres + other.nanometres)

    def __mul__(self, factor: int | Fraction) -> Length:
        return Length(self.nanometres * factor)

    def __bool__(self) -> bool:
        """Return whether it is not zero."""
        return bool(self.nanometres)


def rounded(value: Fraction, places: int) -> str:
    """Return ``value`` to ``places`` decimals, halves away from zero, without trailing noise.

    Halves go away from zero because that is what a reader checking by hand does.
    """
    scale = 10**places
    top, bottom = value.as_integer_ratio()
    whole = (2 * abs(top) * scale + bottom) // (2 * bottom)
    sign = "-" if top < 0 and whole else ""
    head, tail = divmod(whole, scale)
    return f"{sign}{head}.{tail:0{places}d}" if places else f"{sign}{head}"


AT_LEAST_WORDS = "at least "
_UNDER = "under "
"""Stands before a figure that would round to nothing."""


def with_at_least(words: str, sign: str = "≥ ") -> str:
    """Return a weight in figures, of which more was picked: ``≥ 4.2 lb``, ``at least 4.2 lb``.

    Of what is ``under 0.01 lb`` no more is known than that it is above nothing: ``> 0 lb``, or
    ``more than 0 lb``.
    """
    if not words.startswith(_UNDER):
        return f"{sign}{words}"
    _least, *unit = words.removeprefix(_UNDER).split(" ")
    return " ".join(("more than 0" if sign == AT_LEAST_WORDS else f"{sign.replace('≥', '>')}0", *unit))


@dataclass(frozen=True, slots=True)
class Showing:
    """How a garden shows weights, lengths and areas: in pounds and feet, or in kilograms and metres."""

    metric: bool = False

    def picked(self, weight: Weight) -> str:
        """Return one weighing as a scale reads it: ``1 lb 6 oz``, ``620 g``."""
        if self.metric:
            grams = rounded(weight.within(GRAM), 0)
            if int(grams) >= 1000:
                return f"{rounded(weight.within(KILOGRAM), 2)} kg"
            return f"{_UNDER}1 g" if weight and grams == "0" else f"{grams} g"
        tenths = int(rounded(weight.within(OUNCE) * 10, 0))
        if weight and not tenths:
            return f"{_UNDER}0.1 oz"
        pounds, ounces = divmod(tenths, 160)
        text = f"{ounces // 10}" if ounces % 10 == 0 else f"{ounces / 10:.1f}"
        if pounds and ounces:
            return f"{pounds} lb {text} oz"
        return f"{pounds} lb" if pounds else f"{text} oz"

    def summed(self, weight: Weight) -> str:
        """Return a weight as sentences have it: ``42.4 lb``, ``9.6 oz``; ``19.2 kg``, ``620 g``.

        It has tenths from one pound or kilogram on; below, ounces to tenths or whole grams.
        """
        large, small = (KILOGRAM, GRAM) if self.metric else (POUND, OUNCE)
        words = plain(weight.within(small), 0 if self.metric else 1)
        if not weight or Fraction(words) * small.size >= large.size:
            return f"{self.number(weight)} {self.unit}"
        least = "1" if self.metric else "0.1"
        return f"{words} {small.symbol}" if Fraction(words) else f"{_UNDER}{least} {small.symbol}"

    def of_it(self, parts: Iterable[tuple[Weight, str]], places: int | None = None) -> str:
        """Return ``5.2 lb of it cured and 4 oz dried``; parts of nothing are left out."""
        whole = [(weight, how) for weight, how in parts if weight]
        first, rest = whole[:1], whole[1:]
        return self.parts([(weight, f"of it {how}") for weight, how in first] + rest, places)

    def parts(self, parts: Iterable[tuple[Weight, str]], places: int | None = None) -> str:
        """Return ``5.2 lb cured and 4 oz dried``; parts of nothing are left out.

        ``places``: decimals of the large unit, for tables in which every weight has as many.
        """

        def shown(weight: Weight) -> str:
            return (
                self.summed(weight) if places is None else f"{self.kept_number(weight, places)} {self.unit}"
            )

        return " and ".join(f"{shown(weight)} {how}" for weight, how in parts if weight)

    def kept_number(self, weight: Weight, places: int = 1) -> str:
        """Return a total without its unit; one that would round to nothing gets as many places as there are.

        These are two, and three of kilograms: herbs are weighed in grams. Below a tenth of a kilogram
        a figure with two places has the third as well.
        """
        finest = 3 if self.metric else 2
        words = self.number(weight, places)
        fine = self.metric and places > 1 and weight.nanograms * 10 < KILOGRAM.size
        if weight and (fine or not Fraction(words)):
            words = self.number(weight, finest)
        return f"{_UNDER}0.{1:0{finest}d}" if weight and not Fraction(words) else words

    def number(self, weight: Weight, places: int = 1) -> str:
        """Return a total without its unit, for table cells."""
        return rounded(weight.within(KILOGRAM if self.metric else POUND), places)

    @property
    def unit(self) -> str:
        """Return the unit of totals."""
        return "kg" if self.metric else "lb"

    def length(self, length: Length) -> str:
        """Return a length: ``4 ft 6 in``, ``1.2 m``, ``30 cm``."""
        if self.metric:
            centimetres = plain(length.within(CENTIMETRE), 1)
            whole_metre = Fraction(centimetres) >= 100
            return f"{plain(length.within(METRE), 2)} m" if whole_metre else f"{centimetres} cm"
        tenths = int(rounded(length.within(INCH) * 10, 0))
        feet, inches = divmod(tenths, 120)
        if feet and inches:
            return f"{feet} ft {plain(Fraction(inches, 10), 1)} in"
        return f"{feet} ft" if feet else f"{plain(Fraction(inches, 10), 1)} in"

    def grown(self, length: Length) -> str:
        """Return the printed height or width of a plant: no finer than whole centimetres, as plants are."""
        if not self.metric:
            return self.length(length)
        return self.length(Length.of(Fraction(rounded(length.within(CENTIMETRE), 0)), CENTIMETRE))

    def taped(self, length: Length) -> str:
        """Return a length as a tape reads it, to 1/8 in or 1/10 cm: ``10 ft 5 1/4 in``, ``317.5 cm``."""
        if self.metric:
            return f"{plain(length.within(CENTIMETRE), 1)} cm"
        feet, inches = _eighths(length)
        parts = ([f"{feet} ft"] if feet else []) + ([f"{inches} in"] if inches or not feet else [])
        return " ".join(parts)

    def ticked(self, length: Length) -> str:
        """Return a length in the signs of a drawing: ``10′ 5 1/4″``; centimetres stand without a unit."""
        if self.metric:
            return plain(length.within(CENTIMETRE), 1)
        feet, inches = _eighths(length)
        parts = ([f"{feet}′"] if feet else []) + ([f"{inches}″"] if inches or not feet else [])
        return " ".join(parts)

    def per_area(self, weight: Weight, square_feet: Fraction) -> str:
        """Return a weight over an area in square feet: ``1.24 lb per sq ft``, ``6.05 kg per m²``."""
        return f"{self.per_area_number(weight, square_feet)} {self.per_area_unit}"

    def per_area_number(self, weight: Weight, square_feet: Fraction) -> str:
        """Return a weight over an area in square feet without its unit, for table cells."""
        if self.metric:
            square_metres = square_feet * SQUARE_FOOT
            return rounded(weight.within(KILOGRAM) / square_metres, 2)
        return rounded(weight.within(POUND) / square_feet, 2)

    @property
    def per_area_unit(self) -> str:
        """Return the unit of weights over an area."""
        return "kg per m²" if self.metric else "lb per sq ft"

    def area_in(self, square_feet: Fraction) -> Fraction:
        """Return an area given in square feet in the unit of areas, exact."""
        return square_feet * SQUARE_FOOT if self.metric else square_feet

    def area_number(self, square_feet: Fraction) -> str:
        """Return an area given in square feet without its unit, for table cells.

        To one decimal; under ten square metres to two, for a tenth is a whole square.
        """
        return rounded(self.area_in(square_feet), self._area_places(square_feet))

    def _area_places(self, square_feet: Fraction) -> int:
        """Return the decimals of an area."""
        return 2 if self.metric and self.area_in(square_feet) < 10 else 1

    @property
    def area_unit(self) -> str:
        """Return the unit of areas."""
        return "m²" if self.metric else "sq ft"

    def area(self, square_feet: Fraction) -> str:
        """Return an area given in square feet: ``30 sq ft``, ``2.79 m²``."""
        return f"{plain(self.area_in(square_feet), self._area_places(square_feet))} {self.area_unit}"


IN_FEET = Showing()
"""How a garden shows its measures that tells nothing else."""


def _eighths(length: Length) -> tuple[int, str]:
    """Return whole feet, and the inches above them to the nearest eighth; no inches are an empty text."""
    eighths = int(rounded(length.within(INCH) * 8, 0))
    feet, rest = divmod(eighths, 96)
    whole, part = divmod(rest, 8)
    parts = ([str(whole)] if whole else []) + ([str(Fraction(part, 8))] if part else [])
    return feet, " ".join(parts) or ("" if feet else "0")


def plain(value: Fraction, places: int) -> str:
    """Return a value to ``places`` decimals at most, without zeros at its end."""
    text = rounded(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text
