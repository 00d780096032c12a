"""A season's home as a year, and its tally: titles, months, losses, weights in their order."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import GARDEN, Parsed, html_of, only, said, written

SEASON, TALLY = "2026/index.html", "2026/tally/index.html"


def visit(title: str, day: str, *done: str, more: str = "") -> tuple[str, str]:
    lines = "".join(f"  - {{{one}}}\n" for one in done)
    name = f"2026/log/{day}-{title.lower().replace(' ', '-')}.md"
    return name, f"---\ntitle: {title}\ndate: {day}\n{more}done:\n{lines}---\nWords.\n"


FILES = {
    "garden.yaml": GARDEN.replace(
        "season: {start: Mar 1, end: Oct 31}",
        "season: {start: Mar 1, end: Oct 31}\nseasons: {2026: {note: A dry year.}}",
    ),
    "2026/plan.yaml": (
        "- {crop: basil, tag: BA1, squares: front/A1, set out: May 10, until: Sep 20}\n"
        "- {crop: basil, tag: BA2, squares: back/A1, set out: May 10, until: Sep 20}\n"
        "- {crop: carrot, tag: CA1, squares: front/B1:B2, sow: Apr 20, until: Aug 1}\n"
        "- {crop: chard, tag: CH1, squares: 'front/A2, back/A2', sow: Apr 20}\n"
        "- {crop: celery, tag: CE1, squares: back/B1, set out: Jun 1, until: Sep 1, dropped: May 20, "
        "because: damped off}\n"
    ),
    "2026/harvest.yaml": (
        "- {date: 2026-06-10, crop: basil, tag: BA1, weight: 4 oz}\n"
        "- {date: 2026-06-20, crop: carrot, tag: CA1, weight: 2 lb}\n"
        "- {date: 2026-07-01, crop: radish, weight: not weighed}\n"
        "- {date: 2026-07-02, mixed: [basil, carrot], weight: 8 oz}\n"
        "- {date: 2026-07-03, crop: basil, tag: BA2, weight: not weighed}\n"
    ),
    **dict(
        (
            visit("Crust", "2026-05-02", "failed: carrot, tag: CA1, because: a crust"),
            visit("Quiet", "2026-06-10", "weed: bed, squares: back"),
            visit(
                "White morning",
                "2026-07-04",
                "lost: basil, tag: BA1, squares: front/A1, because: a cold night",
                "lost: basil, tag: BA2, squares: back/A1, because: a cold night",
                "lost: chard, tag: CH1, squares: front/A2, because: a cold night",
            ),
            visit(
                "Not yet",
                "2026-07-05",
                "lost: carrot, tag: CA1, squares: front/B1, plants: 2, because: a mole",
                more="unfinished: yes\n",
            ),
        )
    ),
}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    return html_of(written(tmp_path_factory.mktemp("garden"), FILES))


def test_what_was_lost_and_why(pages: Parsed) -> None:
    """One cause on one day is one line; of an entry that waits what was done is told, and no word more."""
    assert [said(one) for one in pages[SEASON].select(".losses li")] == [
        "2 May carrot (CA1) failed to come up: a crust Told in Crust",
        "20 May celery (CE1) given up: damped off",
        "4 July basil (BA1) and basil (BA2) lost: a cold night Told in White morning",
        "4 July chard (CH1) lost in A2 of the front bed: a cold night Told in White morning",
        "5 July carrot (CA1) two plants lost: a mole",
    ]


def test_the_months_tell_their_visits_and_what_was_picked(pages: Parsed) -> None:
    page = pages[SEASON]
    told = {said(only(one, "h3")): one for one in page.select(".chapters > li")}
    assert list(told) == ["April", "May", "June", "July under way"]
    before = "Nothing on record in the beds: March ( The front bed , The back bed )."
    assert said(only(page, "#months + p")) == before, "a map of bare ground tells nothing"
    assert [said(one) for one in told["June"].select("ul li")] == ["Quiet 10 June"]
    assert said(only(told["June"], "figcaption")) == "30 June: The front bed , The back bed 2.3 lb"
    assert said(only(told["July under way"], "figcaption b")) == "at least 8 oz"
    assert not told["April"].select("figcaption b"), "nothing picked is no figure"
    assert "Not yet" not in said(only(page, "main"))
    ahead = said(only(page, ".chapters + p"))
    assert ahead == "Still to come, as planned: August, September, October ( The front bed , The back bed )."


def test_the_page_reads_as_a_year(pages: Parsed) -> None:
    page = pages[SEASON]
    assert said(only(page, ".told-by")) == "A dry year."
    order = [one["id"] for one in page.select("main h2")]
    assert order == ["strips", "lost", "beside", "months", "papers", "take"]
    assert only(page, ".take li:last-child a")["href"] == "../sheets/poster/2026/index.html"
    assert not page.select(".told-by ~ .onward:has(~ .standing)"), "no link stands before what the beds gave"


def test_titles_hang_on_the_strip_of_their_bed(pages: Parsed) -> None:
    """A loss counts before other work; what names two beds alike stands at the first."""
    page = pages[SEASON]
    titles = {
        bed: [said(one) for one in page.select(f"#strip-{bed}-wide .d-told text")]
        for bed in ("front", "back")
    }
    assert titles == {"front": ["Crust", "White morning"], "back": ["Quiet"]}
    assert only(page, "#strip-back-wide .d-told")["aria-label"] == "Quiet, 10 June 2026"
    assert only(page, "#strip-back-wide .d-told")["href"] == "log/06-10-quiet/index.html"


def test_the_tally_begins_with_squares_and_crops_by_weight(pages: Parsed) -> None:
    page = pages[TALLY]
    assert [one["id"] for one in page.select("main h2")] == ["beds", "by-crop", "running", "cuts"]
    assert [said(one) for one in page.select(".gave .weighed li")] == [
        "2.00 carrots",
        "0.50 mixed bowl: basil and carrots",
        "≥ 0.25 basil",
    ]
    bars = [float(str(one["width"])) for one in page.select(".gave .weighed rect")]
    assert bars == [100.0, 25.0, 12.5]
    assert said(only(page, ".gave section:has(.weighed) .note")) == "Picked, and never weighed: radishes ."
    assert said(only(page, "#beds + div > .note")).endswith(" came with no square told, and stands in none.")
    assert said(only(page, "main > .note")).startswith("≥ before a figure:")
    assert not [one for one in page.select("td, th") if "at least" in said(one)]


def test_a_variety_is_named_as_its_planting_is(tmp_path: Path) -> None:
    """``bean, bush, ‘Broad’ (BB1)`` of one planting, ``beans, bush, ‘Broad’`` of all."""
    files = FILES | {
        "2026/plan.yaml": "- {crop: bush bean, tag: BB1, variety: Broad, squares: front/A1, sow: May 20}\n",
        "2026/harvest.yaml": "- {date: 2026-07-03, tag: BB1, weight: 1 lb}\n",
    }
    page = html_of(written(tmp_path, {name: text for name, text in files.items() if "/log/" not in name}))[
        TALLY
    ]
    assert said(only(page, "#t-variety tbody th")) == "beans, bush, ‘Broad’"
    assert said(only(page, "#t-planting tbody th")) == "bean, bush, ‘Broad’ (BB1)"


def test_every_other_cut_is_folded_under_its_answer(pages: Parsed) -> None:
    page = pages[TALLY]
    folded = {str(one["id"]): one for one in page.select("details.cut")}
    # Nobody told a variety or where anything went, and all of it was fresh: these cuts would tell nothing.
    assert list(folded) == ["crops", "weeks", "squares", "bed", "planting"]
    assert not page.select("details[open]")
    assert {str(table.find_parent("details")["id"]) for table in page.select("table")} == set(folded)  # type: ignore[index]
    assert said(only(folded["crops"], "summary")) == "By crop and month most weighed: June, 2.25 lb"
    assert said(only(folded["weeks"], "summary")) == "By week most weighed: 15 to 21 June, 2.00 lb"
    assert (
        said(only(folded["squares"], "summary"))
        == "By square most weighed: B1:B2 of the front bed, 1.00 lb each"
    )


@pytest.mark.parametrize(
    ("ledger", "answers"),
    [
        (
            "- {date: 2026-06-10, tag: KA1, weight: 2 lb}\n- {date: 2026-07-10, tag: CA1, weight: 2 lb}\n"
            "- {date: 2026-08-10, tag: BB1, weight: 2 oz}\n",
            {
                "crops": " most weighed: June and July, 2.00 lb each",
                "squares": " most weighed: A1:B1 of the front bed and C1:C2 of the back bed, 1.00 lb each",
                "bed": " most weighed: the back bed, 2.13 lb",
            },
        ),
        (
            "- {date: 2026-06-10, tag: KA1, weight: 2 lb}\n- {date: 2026-07-10, tag: CA1, weight: 2 lb}\n",
            {"crops": "", "squares": "", "bed": ""},
        ),
    ],
)
def test_what_weighs_the_same_is_named_together(tmp_path: Path, ledger: str, answers: dict[str, str]) -> None:
    """Fails where the first of several is called the one with most, or where all of them are."""
    plan = (
        "- {crop: kale, tag: KA1, squares: front/A1:B1, sow: Apr 5}\n"
        "- {crop: carrot, tag: CA1, squares: back/C1:C2, sow: Apr 5}\n"
        "- {crop: bean-bush, tag: BB1, squares: back/A1, sow: May 15}\n"
    )
    files = {"garden.yaml": GARDEN, "2026/plan.yaml": plan, "2026/harvest.yaml": ledger}
    page = html_of(written(tmp_path, files))[TALLY]
    titles = {"crops": "By crop and month", "squares": "By square", "bed": "By bed"}
    told = {ident: said(only(page, f"#{ident} > summary")) for ident in answers}
    assert told == {ident: titles[ident] + answer for ident, answer in answers.items()}


def test_a_full_ledger_needs_no_sign(tmp_path: Path) -> None:
    files = {"garden.yaml": GARDEN, "2026/harvest.yaml": "- {date: 2026-06-10, crop: basil, weight: 4 oz}\n"}
    page = html_of(written(tmp_path, files))[TALLY]
    assert "≥" not in said(only(page, "main"))


@pytest.mark.parametrize(
    ("begun", "before", "how"),
    [
        ("sow: Apr 20", "observe: bed", "failed to come up"),
        ("sow: Apr 20", "up: basil, tag: BA1", "failed"),
        ("set out: May 10", "observe: bed", "failed"),
    ],
)
def test_what_was_set_out_or_up_is_not_said_to_have_failed_to_come_up(
    tmp_path: Path, begun: str, before: str, how: str
) -> None:
    """Fails where young plants that a frost took in fall never came up."""
    files = {
        "garden.yaml": GARDEN,
        "2026/plan.yaml": f"- {{crop: basil, tag: BA1, squares: front/A1, {begun}, until: Sep 20}}\n",
        **dict(
            (
                visit("Look", "2026-06-01", before),
                visit("Frost", "2026-09-18", "failed: basil, tag: BA1, because: frost"),
            )
        ),
    }
    pages = html_of(written(tmp_path, files))
    assert said(only(pages[SEASON], ".losses li")) == f"18 September basil (BA1) {how}: frost Told in Frost"
    assert "basil failed" in said(only(pages["2026/log/index.html"], "main"))
    assert "failed to come up" not in said(only(pages["2026/log/index.html"], "main"))
