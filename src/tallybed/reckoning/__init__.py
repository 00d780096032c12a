"""What follows from a garden's records: who held which square when, what stood there, what it gave.

All of it is pure: no files, no clock, no chance. The nouns, from the gardener's papers to a page:

PlanRow          one row of the plan; its square is free on the day of ``until``
Planting         one planting as plan, log and ledger know it together
Record           what one line of log or ledger says of one square on its day
Hold             a planting in a square over days of one grade; both days are inside
Stay             a planting in a square without a gap; both days are inside, on ``left`` the square is free
Course           the same time seen as stages: one Phase after the other, both days inside
Holder           who held a square in one month; both days are inside, on ``ends`` the square is free
PlantingStrip    one planting in one bed over a season: its courses, and what the plan had meant
PlantingHistory  one planting from sowing to clearing: Milestones, and Durations in days from one to another
Year             one garden's season with all that follows from it, each worked out once
TallyLine        one exact share of one weighing: of one square, to one destination

Grades, the best first: seen, implied, supposed, planned. Days are dates. Weights are exact, in nanograms.

An example: a bed of six squares, A1 to F1, in a season from 1 March to 31 October, seen from 10 June.

plan.yaml
    - {crop: radish, tag: RA1, squares: A1:B1, sow: Apr 5, until: May 18}
    - {crop: carrot, tag: CA1, squares: C1:D1, sow: Apr 10, until: Jul 20}
    - {crop: bean-bush, tag: BB1, squares: A1:B1, sow: May 20, until: Aug 20}
log
    2026-04-05 {sow: radish, tag: RA1, squares: A1:B1}
    2026-04-10 {sow: carrot, tag: CA1, squares: C1:D1}
    2026-04-24 {thin: carrot, tag: CA1, squares: C1}
    2026-05-22 {sow: bean-bush, tag: BB1, squares: A1:B1}
harvest.yaml
    - {date: 2026-05-08, tag: RA1, squares: A1:B1, weight: 9 oz}

Three plantings come of it. The radish has two records in each of its squares; no record says that it left, so
it leaves when the plan says. The bean was sown two days late: the day in the log counts. Only C1 was seen on
24 April. Nobody planned or recorded anything in E1 and F1: no Hold, no Stay.

holds
    A1 B1  RA1  04-05 to 04-05  seen
    A1 B1  RA1  04-06 to 05-08  implied
    A1 B1  RA1  05-09 to 05-17  supposed
    A1 B1  BB1  05-22 to 05-22  seen
    A1 B1  BB1  05-23 to 06-10  supposed
    A1 B1  BB1  06-11 to 08-19  planned
    C1 D1  CA1  04-10 to 04-10  seen
    C1     CA1  04-11 to 04-23  implied
    C1     CA1  04-24 to 04-24  seen
    C1     CA1  04-25 to 06-10  supposed
    C1 D1  CA1  06-11 to 07-19  planned
    D1     CA1  04-11 to 06-10  supposed
stays
    A1 B1  RA1  04-05 to 05-17  left 05-18
    A1 B1  BB1  05-22 to 08-19  left 08-20
    C1 D1  CA1  04-10 to 07-19  left 07-20
phases of RA1
    A1 B1  RA1  04-05 to 04-18  sown, implied
    A1 B1  RA1  04-19 to 05-07  growing, implied
    A1 B1  RA1  05-08 to 05-08  bearing, implied
    A1 B1  RA1  05-09 to 05-17  bearing, supposed
holders in May
    A1 B1  RA1  05-01 to 05-17  over, ends 05-18
    A1 B1  BB1  05-22 to 05-31  sown, starts 05-22
    C1 D1  CA1  05-01 to 05-31  growing
tally lines
    A1     RA1  05-08  4.5 oz
    B1     RA1  05-08  4.5 oz
"""
