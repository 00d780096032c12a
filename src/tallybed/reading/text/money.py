"""Amounts of money and currencies: text in, exact value out, Misread otherwise."""

from __future__ import annotations

import re
from fractions import Fraction

from babel.numbers import get_currency_precision, list_currencies

from tallybed.garden.naming import nearest
from tallybed.garden.units import WEIGHT_UNIT_OF, WEIGHT_UNITS, Unit
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.text.measures import nearest_unit, plain

AMOUNT = "an amount without its sign, such as 6.40"
CURRENCY = "a currency’s three letters, such as USD"
PER = "a unit of weight, such as lb or kg"
_MOST = 3
"""Decimals of the currencies that have most, such as the dinar."""
_NUMBER = re.compile(r"[0-9]{1,9}(\.[0-9]{1,3})?")
_COMMA = re.compile(r"[0-9]+,[0-9]{1,2}")
_GROUPED = re.compile(r"[0-9]{1,3}(,[0-9]{3})+(\.[0-9]{1,3})?")
"""With commas between thousands."""
_OPEN = re.compile(r"[1-9][0-9]{0,2}\.[0-9]{3}")
"""What is a number of thousands to some people, unless the currency has three decimals."""


def amount(text: str, currency: str) -> Fraction:
    """Read an amount of money: ``6.40``, ``12``. The currency is the garden’s, empty where it names none."""
    words = plain(text)
    found = f"the amount {quoted(text)} cannot be read"
    bare = re.sub(r"[^0-9.,-]", "", words)
    if _COMMA.fullmatch(bare):  # beside its sign too: of “6,40 €” nobody means 640
        raise Misread(
            "decimal-comma",
            f"the amount {quoted(text)} has a comma inside a number",
            "a decimal point",
            bare.replace(",", "."),
        )
    if not _NUMBER.fullmatch(words):
        bare = bare.replace(",", "") if _GROUPED.fullmatch(bare) else bare
        raise Misread("amount", found, AMOUNT, bare if _NUMBER.fullmatch(bare) else "")
    if _OPEN.fullmatch(words) and (not currency or get_currency_precision(currency) < _MOST):
        whole = words.replace(".", "")
        open_number = f"the amount {quoted(text)} may be {whole} or {words[:-1]}"
        raise Misread("amount", open_number, "two decimals at most, and no sign between thousands")
    return Fraction(words)


def currency(text: str) -> str:
    """Read a currency by its three letters (ISO 4217, as the Unicode locale data list them)."""
    letters = text.strip().upper()
    known = list_currencies()
    if letters not in known:
        close = nearest(letters, known) if len(letters) == len("USD") else ""
        raise Misread("currency", f"{quoted(text)} is not a currency", CURRENCY, close)
    return letters


def per(text: str) -> Unit:
    """Read the unit of weight that a price is for: ``lb``, ``kg``."""
    word = plain(text).casefold().removeprefix("a ").removeprefix("one ")
    if word not in WEIGHT_UNIT_OF:
        raise Misread(
            "price-unit",
            f"{quoted(text)} is not a unit of weight",
            PER,
            nearest=nearest_unit(word, WEIGHT_UNITS),
            remedy="give the price of a weight of it",
        )
    return WEIGHT_UNIT_OF[word]
