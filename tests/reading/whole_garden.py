"""A small garden in which every key of every file stands at least once."""

from __future__ import annotations

GARDEN = """\
name: Wrenfold Library Beds
place: Wrenfold
latitude: 39.6
longitude: -83.1
time zone: America/New_York
language: en
units: pounds
address: https://beds.wrenfold.example
about: One sentence that says what this garden is.
season: {start: Mar 1, end: Nov 30}
seasons:
  2026: {start: Mar 10, end: Nov 24, closed: yes, note: First season.}
freeze dates:
  last spring: {10%: May 8, 50%: Apr 22, 90%: Apr 7}
  first fall: Oct 14
  first fall 28: Oct 26
beds:
  - name: long
    title: The long bed
    length: 10 squares
    width: 3 ft
    bearing: 75.5
    trellis: {side: 1, squares: A1:F1, height: 6 ft}
    path:
      - {side: 3, width: 3 ft}
      - {side: A, width: 30 in, share: 1/3}
    run-out:
      - {side: j, reach: 5 ft}
    note: Beside the ramp.
  - {name: elbow, length: 6 squares, width: 5 squares, square: 30 cm, omitted: [D3:F5]}
supporters:
  - {words: "Seed: the <mill>", from: 1 Apr 2026, until: 2026-10-31, address: "https://mill.example/"}
  - {words: Always}
"""
PLAN = """\
- crop: Spinach
  tag: sp1
  variety: Bloomsdale
  squares: long/A1:A3
  sow: Apr 12
  until: Jun 5
  per square: 6
  spacing: 4 in
  note: A note.
  silence: {early: it was a mild March}
- {crop: tomato-indeterminate, tag: TO1, squares: long/B1:C2, sow indoors: Mar 20, pot up: Apr 10,
   set out: May 12, until: Oct 10, plants: 1}
- {crop: radish, squares: long/A1, sow: Apr 5, until: May 8, among: sp1, share: 1/3}
- {crop: lettuce-leaf, squares: long/A2, sow: Apr 5, among: tomatoes}
- {crop: squash-winter, squares: long/J1:J2, set out: May 20, run-out: J}
- {crop: squash-winter, squares: long/J3, set out: May 20, run-out: {side: J, reach: 6 ft}}
- {crop: okra, squares: long/H1:H2, sow: May 20, until: Sep 30, dropped: May 28, because: seed rotted}
- {crop: garlic, squares: elbow/A1:A4, carried from: 2025, until: Jul 10}
"""
LOG = """\
---
title: Peas are up
by: the Tuesday crew
unfinished: no
hold until: 1 May 2026
changed: June 3, 2026
identity: 2026-04-18 Peas.md
done:
  - {sow: carrot, squares: long/C1:C2, tag: CA1, variety: Amber Spike, seeds: 40, among: TO1, share: 1/4}
  - {thin: carrots, tag: CA1, squares: long/C1:C2, leaving: 32}
  - {lost: spinach, tag: SP1, squares: long/A1, plants: 3, because: slugs}
  - {move: leek, squares: elbow/A1, to: elbow/B1:B2, plants: 3}
  - {weed: bed, squares: long, minutes: 12, people: 2}
  - {treat: soap spray, crop: beans, tag: SP1, amount: half a bottle, note: on the undersides}
  - {feed: tomatoes}
photos:
  - {file: peas.jpg, alt: Pea seedlings, credit: N., caption: Up, licence: CC BY 4.0,
     source: "https://example.org/peas", shows people: yes, consent: yes}
further reading:
  - {title: On peas, address: https://example.org/peas?a=b#c}
---

Markdown *prose*.

---

More.
"""
LEDGER = """\
- {date: 2026-06-02, crop: spinach, squares: long/A1:A2, weight: 1 lb 6 oz}
- {date: Jun 2, crop: radish, count: 16, weight: about 255 g, to: food pantry}
- {date: 2026-06-09, crop: basil, weight: not weighed, note: a handful}
- {date: 2026-06-10, mixed: [lettuce-leaf, arugula], weight: 11 oz}
- {date: 2026-07-02, crop: carrot, variety: Amber Spike, weight: 3 lb,
   to: {food pantry: 2 lb, kitchen: the rest}}
- {date: 2026-07-20, tag: ca1, as: dry, state: cured, weighed: 2026-08-14, weight: 6 lb}
- {date: 2026-07-20, crop: beans, weight: 1 lb}
"""
QUESTION = """\
---
question: How much does one tomato plant give?
asked: 2026-07-14
by: a visitor at the fence
about: [tomatoes, kale]
unfinished: no
hold until: 2026-07-20
---
About *this* much.
"""
CROPS = """\
- crop: carrot
  spacing: 2 in
  days: 61
  germination: 64%
  source: our own rows, 2024
  varieties:
    - {name: Amber Spike, days: 68, spacing: 3 in, germination: 81%, source: seed packet, note: sweet}
- new: Skirret
  plural: skirrets
  also: [crummock, sugar root]
  botanical name: Sium sisarum
  family: Apiaceae
  habit: rosette
  start: set out
  letters: SK
  spacing: 12 in
  days: 180
  germination: 40 %
  hardiness: Very hardy
  source: seed exchange leaflet
"""
FILES = {
    "content/garden.yaml": GARDEN,
    "content/crops.yaml": CROPS,
    "content/withdrawn.yaml": "- {withdrawn: picture, season: 2025, on: 2026-08-02}\n",
    "content/about.md": "---\ntitle: About us\norder: 2\n---\nWe dig.\n",
    "content/questions/How much?.md": QUESTION,
    "content/2026/names.yaml": "Tomatoes: tomato-indeterminate\n",
    "content/2026/plan.yaml": PLAN,
    "content/2026/log/2026-04-19-Peas are up.md": LOG,
    "content/2026/harvest.yaml": LEDGER,
    "content/2025/harvest.yaml": "",
}
