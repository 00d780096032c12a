"""A season's tables as files: CSV (RFC 4180), JSON, and the descriptor that tells programs what is in them.

The descriptor follows the Data Package, Tabular Data Package and Table Schema
specifications, version 1 (specs.frictionlessdata.io).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from hashlib import sha256
from typing import Any

from tallybed.garden.days import in_full
from tallybed.garden.garden import Garden
from tallybed.pages.files.data.datasets import datasets
from tallybed.pages.files.data.tables import Column, ColumnType, Dataset, Value
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import DataFile
from tallybed.pages.frame.which_pages import has_data
from tallybed.pages.season.data import NOTES, citation
from tallybed.publishing.files import csv_text
from tallybed.reckoning.year import Year

_Json = dict[str, object]
_CSV = {"delimiter": ",", "lineTerminator": "\r\n", "quoteChar": '"', "doubleQuote": True, "header": True}


def data_files(year: Year) -> dict[str, bytes]:
    """Return a season's data by path: each table as CSV and as JSON, and what describes them."""
    files: dict[str, bytes] = {}
    if not has_data(year):
        return files
    resources = []
    for one in datasets(year):
        data = csv_of(one)
        files[addresses.data_file(year, f"{one.name}.csv")] = data
        files[addresses.data_file(year, f"{one.name}.json")] = json_of(one)
        resources.append(_resource(one, data))
    descriptor = {**_package(year), "resources": resources}
    text = json.dumps(descriptor, ensure_ascii=False, indent=1) + "\n"
    files[addresses.data_file(year, "datapackage.json")] = text.encode()
    return files


def csv_of(one: Dataset) -> bytes:
    """Return a table as comma-separated values that no spreadsheet runs."""
    heads = tuple(column.name for column in one.columns)
    rows = tuple(tuple(_cell(value) for value in row) for row in one.rows)
    return csv_text.written(DataFile(path=f"{one.name}.csv", heads=heads, rows=rows))


def json_of(one: Dataset) -> bytes:
    """Return a table as a list of objects, one a line; numbers keep every digit."""
    names = [json.dumps(column.name) for column in one.columns]
    rows = [
        "{" + ", ".join(f"{name}: {_json(value)}" for name, value in zip(names, row, strict=True)) + "}"
        for row in one.rows
    ]
    return ("[\n" + ",\n".join(rows) + "\n]\n" if rows else "[]\n").encode()


_encoded = json.JSONEncoder(ensure_ascii=False).encode
"""Made once: the library makes one anew at each call."""


def _cell(value: Value) -> str | int | Decimal:
    """Return a value as a cell of a CSV file; None is an empty one."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return value.isoformat() if isinstance(value, date) else value


def _json(value: Value) -> str:
    """Return a value as JSON, a day as a text in ISO form."""
    if isinstance(value, Decimal):
        # Written digit by digit: a binary float in between could lose the last of them.
        return f"{value:f}"
    return _encoded(value.isoformat() if isinstance(value, date) else value)


def _package(year: Year) -> _Json:
    """Return what describes a season's data as a whole, its tables left out."""
    garden = year.garden
    found: _Json = {
        "profile": "tabular-data-package",
        "name": addresses.name_elsewhere(year),
        "title": f"{garden.name}: plan, log and ledger of {year.name}",
        "description": " ".join([f"To cite: {citation(year, in_full(year.as_of))}", *NOTES]),
        "version": year.as_of.isoformat(),
        # The day the records speak as of; the clock would make each build another file.
        "created": f"{year.as_of.isoformat()}T00:00:00Z",
    }
    if garden.address:
        found["homepage"] = addresses.absolute(garden.address, addresses.data(year))
    terms = dict(_terms(garden))
    return {**found, "licenses": [terms]} if terms else found


def _terms(garden: Garden) -> Iterator[tuple[str, str]]:
    """Yield the name, title and path of the garden's licence, as far as they are told."""
    if garden.licence:
        # A name has no spaces there: the known short names are written with hyphens.
        yield "name", re.sub(r"[^A-Za-z0-9._]+", "-", garden.licence).strip("-") or "own-terms"
        yield "title", garden.licence
    if garden.licence_address:
        yield "path", garden.licence_address


def _resource(one: Dataset, data: bytes) -> _Json:
    """Return the description of a table's CSV file; the JSON file beside it holds the same."""
    return {
        "profile": "tabular-data-resource",
        "name": one.name,
        "path": f"{one.name}.csv",
        "title": one.title,
        "description": one.meaning,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": len(data),
        "hash": f"sha256:{sha256(data).hexdigest()}",
        "dialect": _CSV,
        "schema": _schema(one),
    }


def _schema(one: Dataset) -> _Json:
    """Return what describes a table: its columns and its key."""
    fields = [_field(column) for column in one.columns]
    return {
        "fields": fields,
        "primaryKey": one.key if isinstance(one.key, str) else list(one.key),
        "missingValues": [""],
    }


def _field(column: Column[Any]) -> _Json:
    """Return what describes a column: its name, type, meaning, unit and bounds."""
    found: _Json = {"name": column.name, "type": column.kind.value, "description": column.meaning}
    if column.unit:
        found["unit"] = column.unit
    if column.kind is ColumnType.BOOLEAN:
        found |= {"trueValues": ["true"], "falseValues": ["false"]}
    constraints = dict(_constraints(column))
    return {**found, "constraints": constraints} if constraints else found


def _constraints(column: Column[Any]) -> Mapping[str, object]:
    """Return what every value of a column keeps to: no number but a temperature is below zero."""
    found: _Json = {}
    if column.required:
        found["required"] = True
    if column.unique:
        found["unique"] = True
    if column.kind in (ColumnType.INTEGER, ColumnType.NUMBER) and not column.below_zero:
        found["minimum"] = 0
    if column.choices:
        found["enum"] = list(column.choices)
    return found
