"""Every kind of page has its module, its template and its row, and knows the paths of its pages."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Callable
from inspect import signature
from pathlib import Path

import pytest

from tallybed.pages.catalogue import KINDS, PageKind, page_at
from tallybed.pages.frame.which_pages import PATHS, every_path
from tallybed.reckoning.year import Years
from tests.pages.gardens import GARDEN, every_page, folder, site_of, written
from tests.tools import ROOT

ROOMS = ("lasting", "season", "paper")
PAGES = ROOT / "src" / "tallybed" / "pages"
BARE = "bare"
"""A garden without plan, log and ledger."""


def _makes_pages(module: Path) -> bool:
    tree = ast.parse(module.read_text(encoding="utf-8"))
    return "pages" in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}


MODULES = [path for room in ROOMS for path in sorted((PAGES / room).glob("*.py")) if _makes_pages(path)]
BY_KIND = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)


def _with_all(root: Path) -> Path:
    texts = {
        "garden.yaml": f"address: https://hall.example/beds/\n{GARDEN}",
        "2026/weather.csv": "date,low F,rain in\n2026-04-06,31,0.2\n",
    }
    return written(root, texts)


@pytest.fixture(scope="module")
def gardens(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Years]:
    found = {
        "full": site_of(_with_all(folder(tmp_path_factory.mktemp("full")))),
        BARE: site_of(folder(tmp_path_factory.mktemp(BARE), plan=False, log=False, ledger=False)),
    }
    return found.__getitem__


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.stem)
def test_every_module_that_makes_pages_has_its_row(module: Path) -> None:
    names = {kind.name.replace(" ", "_") for kind in KINDS}
    assert module.stem in names, f"{module.name} has no row in pages/catalogue.py: nobody makes its pages"


@BY_KIND
def test_every_row_is_of_the_module_of_its_name(kind: PageKind) -> None:
    (module,) = [module for module in MODULES if module.stem == kind.name.replace(" ", "_")]
    name = f"tallybed.pages.{module.parent.name}.{module.stem}"
    assert kind.pages.__module__ == name


def test_every_kind_tells_its_paths_in_the_order_of_the_catalogue() -> None:
    assert list(PATHS) == [kind.name for kind in KINDS]


@BY_KIND
def test_every_kind_has_its_template(kind: PageKind) -> None:
    assert (ROOT / "layouts" / kind.template).is_file(), f"layouts/{kind.template} is not there"


@pytest.mark.parametrize("name", ["full", BARE])
@BY_KIND
def test_the_paths_of_a_kind_are_those_of_its_pages(
    gardens: Callable[[str], Years], kind: PageKind, name: str
) -> None:
    """Fails where a link typed to a page would lead nowhere, or to a page that nobody makes."""
    years = gardens(name)
    made = list(kind.every(years))
    assert Counter(kind.paths(years)) == Counter(page.path for page in made)
    assert {(page.kind, page.template) for page in made} <= {(kind.name, kind.template)}
    assert all("trail" in page.data for page in made), "data without the trail that sheet.html shows"


def test_the_small_garden_has_a_page_of_every_kind(gardens: Callable[[str], Years]) -> None:
    years = gardens("full")
    assert [kind.name for kind in KINDS if not list(kind.paths(years))] == []


def test_a_page_made_alone_is_the_one_of_the_whole_site(gardens: Callable[[str], Years]) -> None:
    """Fails where a kind makes another page, or none, when one path of it is asked for."""
    years = gardens("full")
    for page in every_page(years):
        assert page_at(years, page.path) == page, page.path
    assert page_at(years, "2026/log/nothing/index.html") is None


def test_of_a_kind_with_many_pages_one_is_made_without_the_others(gardens: Callable[[str], Years]) -> None:
    years = gardens("full")
    for kind in (kind for kind in KINDS if kind.alone):
        for path in PATHS[kind.name](years):
            every = [
                page.path
                for whose in (years.all if kind.yearly else [years])
                for page in kind.pages(whose, path)
            ]
            assert every == [path], kind.name


@BY_KIND
def test_a_kind_that_can_make_one_page_alone_says_so(kind: PageKind) -> None:
    """Fails where a kind that takes a path has all its pages made for the sake of one."""
    assert kind.alone == ("only" in signature(kind.pages).parameters)


def test_no_two_kinds_have_a_path_in_common(gardens: Callable[[str], Years]) -> None:
    paths = Counter(every_path(gardens("full")))
    assert max(paths.values()) == 1
