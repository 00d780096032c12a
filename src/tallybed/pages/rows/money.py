"""What it took: money, and what the produce would have cost. No wage is put on anybody's time."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.garden.benchmarks import Topic
from tallybed.garden.days import in_full
from tallybed.garden.units import KILOGRAM, POUND
from tallybed.pages.rows.others import OTHERS, others_table
from tallybed.pages.rows.parts import Citations, RowsPart, percent
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text
from tallybed.pages.wording import names
from tallybed.pages.wording.money import money
from tallybed.pages.wording.sentences import counted, listed, sentence
from tallybed.reckoning.effort.money import Spending, Value
from tallybed.reckoning.effort.season import bills_to_come, season_costs, season_value, season_work
from tallybed.reckoning.year import Year


def money_part(year: Year, citations: Citations) -> RowsPart | None:
    """Return the section on money; None where neither costs nor prices are on record."""
    costs, worth = season_costs(year, year.today), season_value(year, year.today)
    if costs is None and worth is None:
        return None
    folded = []
    if costs is not None and costs.shares:
        folded.append(("What it was spent for", _purpose_table(year, costs)))
        folded.append(("Every cost", _costs_table(year, costs)))
    if worth is not None and worth.crops:
        folded.append(("Every price", _prices_table(year, worth)))
    caption = f"{OTHERS}, in {{unit}}"
    folded.append((OTHERS, others_table(year.garden, Topic.MONEY, citations, caption)))
    worked = season_work(year, year.today)
    minutes = (
        f" Of that, {worked.minutes:,} minutes were timed." if worked is not None and worked.timed else ""
    )
    return RowsPart(
        ident="money",
        title="What it took: money",
        answer=f"cost {money(year.garden, costs.whole)}" if costs is not None else "",
        said=(f"No wage is put on anybody’s time.{minutes}",),
        tables=(_money_table(year, costs, worth),),
        folded=tuple(folded),
        notes=tuple(_money_notes(year, costs, worth)),
    )


def _money_table(year: Year, costs: Spending | None, worth: Value | None) -> Table:
    """Return what it cost and would have cost, in all, by weight and by area."""
    showing = year.garden.showing
    columns = ("In all", f"Per {showing.unit} weighed", f"Per {showing.area_unit} of the squares")
    rows = []
    if costs is not None:
        rows.append(_money_row(year, "What it cost, with its part of what is spread", costs.whole))
        if costs.at_once is not None:
            rows.append(_money_row(year, "Without what is spread over years", costs.at_once))
    if worth is not None:
        rows.append(_worth_row(year, worth))
    return Table(
        ident="t-money",
        caption=f"What {year.name} cost, and what its produce would have",
        heads=heads("Money", *columns, numbers=columns),
        rows=tuple(rows),
    )


def _money_row(year: Year, name: str, amount: Fraction) -> Row:
    """Return an amount in all, by weight and by area."""
    garden, weight = year.garden, year.total.weight
    pounds = weight.within(KILOGRAM if garden.showing.metric else POUND)
    area = garden.square_feet
    return Row(
        cells=(
            text(name),
            figure(money(garden, amount)),
            figure(money(garden, amount / pounds) if pounds else ""),
            figure(money(garden, amount / garden.showing.area_in(area)) if area else ""),
        )
    )


def _worth_row(year: Year, worth: Value) -> Row:
    """Return what the produce would have cost; per pound of what has a price, since the rest has none."""
    garden = year.garden
    pounds = worth.priced.within(KILOGRAM if garden.showing.metric else POUND)
    area = garden.square_feet
    return Row(
        cells=(
            text(
                "What the produce would have cost",
                "all of the weight has a price"
                if worth.share == 1
                else f"{percent(worth.share)} of the weight has a price; the rest counts nothing",
            ),
            figure(money(garden, worth.amount)),
            Cell(
                text=money(garden, worth.amount / pounds) if pounds else "",
                number=True,
                note="of what has a price" if pounds else "",
            ),
            figure(money(garden, worth.amount / garden.showing.area_in(area)) if area else ""),
        )
    )


def _money_notes(year: Year, costs: Spending | None, worth: Value | None) -> Iterator[str]:
    """Yield what must be said beside money."""
    if costs is not None and not costs.recorded:
        yield f"Nothing paid for {year.name} itself is on record: the sum is its part of earlier costs alone."
    yield "What is spread is borne in equal parts by the season it was paid in and those after it."
    if worth is not None:
        yield (
            "Prices are those of a shop or market as somebody saw them; where several were seen for a crop "
            "in the season, the middle one is taken. What is grown need not be what would have been bought."
        )
    later = bills_to_come(year)
    if later:
        yield sentence(
            f"{counted(later, 'line')} of costs and prices {'is' if later == 1 else 'are'} of a day after "
            f"{in_full(year.today)}, the newest on record in log and ledger, and not counted yet"
        )
    if not year.garden.currency:
        yield "The garden does not say which currency this is."


def _purpose_table(year: Year, costs: Spending) -> Table:
    """Return the costs by what they were for."""
    rows = tuple(
        Row(cells=(text(purpose.value), figure(money(year.garden, amount))))
        for purpose, amount in costs.by_purpose.items()
    )
    return Table(
        ident="t-purposes",
        caption=f"What it was spent for, {year.name}",
        heads=heads("For", "Amount", numbers=("Amount",)),
        rows=rows,
    )


def _costs_table(year: Year, costs: Spending) -> Table:
    """Return every cost that the season bears a part of."""
    columns = ("Paid", "Its part of this season")
    rows = tuple(
        Row(
            cells=(
                Cell(text=one.cost.what, note=one.cost.note),
                text(one.season),
                text(one.cost.purpose.value),
                Cell(
                    text=money(year.garden, one.cost.amount),
                    number=True,
                    note=f"over {one.cost.years} years" if one.cost.spread else "",
                ),
                figure(money(year.garden, one.amount)),
            )
        )
        for one in costs.shares
    )
    return Table(
        ident="t-costs",
        caption=f"What was paid for {year.name}",
        heads=heads("What", "Season", "For", *columns, numbers=columns),
        rows=rows,
    )


def _prices_table(year: Year, worth: Value) -> Table:
    """Return what each crop would have cost."""
    garden = year.garden
    unit = KILOGRAM if garden.showing.metric else POUND
    columns = (f"Weight, {garden.showing.unit}", f"Price per {unit.symbol}", "Would have cost")
    rows = tuple(
        Row(
            cells=(
                link(names.listed_key(garden, one.crop)),
                figure(garden.showing.number(one.weight, 2)),
                figure(money(garden, one.per_pound * unit.size / POUND.size)),
                figure(money(garden, one.amount)),
                text(listed(dict.fromkeys(price.seen_at for price in one.prices if price.seen_at))),
            )
        )
        for one in sorted(worth.crops, key=lambda one: names.filed(garden, one.crop))
    )
    return Table(
        ident="t-prices",
        caption=f"What the produce of {year.name} would have cost, crop by crop",
        heads=heads("Crop", *columns, "Seen at", numbers=columns),
        rows=rows,
    )
