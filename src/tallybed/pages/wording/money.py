"""Money as it is written in the garden's language, by the Unicode locale data that Babel carries."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from babel import Locale, UnknownLocaleError
from babel.numbers import format_currency, format_decimal, get_currency_precision

from tallybed.garden.garden import Garden
from tallybed.garden.units import rounded

_PLACES = 2
"""Decimals of an amount where no currency is told."""
_TOUCHING = re.compile(r"(?<=[^\W\d_])(?=\d)|(?<=\d)(?=[^\W\d_])")
"""Where the letters of a currency touch its figures. The locale data wants a space there that does not break
(Unicode Technical Standard 35, part 3, currency spacing; from memory), and Babel sets none."""


def money(garden: Garden, amount: Fraction) -> str:
    """Return an amount in the garden's currency: ``$6.40``; a bare number where none is told.

    It is rounded to the currency's own decimals, halves away from zero.
    """
    locale = _locale(garden.language)
    if not garden.currency:
        bare: str = format_decimal(Decimal(rounded(amount, _PLACES)), format="#,##0.00", locale=locale)
        return bare
    places = get_currency_precision(garden.currency)
    told: str = format_currency(Decimal(rounded(amount, places)), garden.currency, locale=locale)
    return _TOUCHING.sub("\u00a0", told)


def _locale(language: str) -> Locale:
    """Return the locale of a language code; English where there is none."""
    try:
        return Locale.parse(language, sep="-")
    except (UnknownLocaleError, ValueError):
        return Locale("en")
