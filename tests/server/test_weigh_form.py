"""The form for weighings: shown before it is written, written once, and only as it was shown."""

from __future__ import annotations

import re
from collections.abc import Mapping
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup, Tag
from werkzeug.test import Client, TestResponse
from werkzeug.wrappers import Request

from tallybed.server.gate import Gate
from tallybed.server.weigh_form import WEIGH, Asked, FormHeard, Scales, Typed, WeighForm, Wrong

HERE = "http://127.0.0.1:8640"
NASTY = "\"><script>alert(1)</script>'&"
PICKED = {"day": "2026-06-02", "what": "tomato", "weight": "2 lb"}


class Kitchen(Scales):
    """Scales that say what they were told to say, and note what was written."""

    def __init__(self) -> None:
        self.answer: FormHeard | Asked | Wrong = FormHeard(
            words="tomato, 2 lb",
            row="{crop: tomato}",
            ledger="content/2026/harvest.yaml",
            running=(("tomato", "1.0 lb", "3.0 lb"), ("All of 2026", "9.0 lb", "11.0 lb")),
        )
        self.wrong: Wrong | None = None
        self.heard: list[Typed] = []
        self.written: list[tuple[Typed, str]] = []

    def today(self) -> str:
        return "2026-06-02"

    def ripe(self) -> tuple[tuple[str, str], ...]:
        return (("TO1", f"tomato TO1 {NASTY}"),)

    def hear(self, typed: Typed) -> FormHeard | Asked | Wrong:
        self.heard.append(typed)
        return self.answer

    def write(self, typed: Typed, row: str, *, inside: bool = False) -> FormHeard | Wrong:
        if self.wrong:
            return self.wrong
        if isinstance(self.answer, FormHeard) and self.answer.asks and not inside:
            return Wrong(whole="Nobody answered for it.")
        self.written.append((typed, row))
        assert isinstance(self.answer, FormHeard)
        return self.answer


@pytest.fixture
def kitchen() -> Kitchen:
    return Kitchen()


@pytest.fixture
def client(kitchen: Kitchen) -> Client:
    form = WeighForm(kitchen)
    return Client(
        Gate(lambda environ, start: form.answer(Request(environ))(environ, start), ("127.0.0.1",), 8640)
    )


def page(answer: TestResponse) -> BeautifulSoup:
    assert answer.content_type == "text/html; charset=utf-8"
    soup = BeautifulSoup(answer.text, "html.parser")
    assert soup.find("script") is None, "something that was typed became part of the page"
    idents = [str(tag["id"]) for tag in soup.find_all(id=True)]
    assert len(idents) == len(set(idents))
    for name in [str(tag["name"]) for tag in soup.select("input:not([type=hidden], [type=radio])")]:
        around = soup.select_one(f'label input[name="{name}"]')
        assert around or soup.select_one(f'label[for="{name}"]'), f"{name} has no label"
    for tag in soup.select("[aria-describedby]"):
        assert set(str(tag["aria-describedby"]).split()) <= set(idents)
    return soup


def fields(soup: BeautifulSoup) -> dict[str, str]:
    form = soup.find("form")
    assert isinstance(form, Tag)
    assert (form["method"], form["action"]) == ("post", WEIGH)
    return {
        str(tag["name"]): str(tag.get("value", ""))
        for tag in form.find_all("input")
        if tag.get("type") != "radio"
    }


def fill(client: Client) -> dict[str, str]:
    return fields(page(client.get(WEIGH, base_url=HERE)))


def send(client: Client, data: Mapping[str, str]) -> TestResponse:
    return client.post(WEIGH, base_url=HERE, headers={"Origin": HERE}, data=dict(data))


def test_a_picking_is_shown_with_its_totals_and_written_only_then(client: Client, kitchen: Kitchen) -> None:
    answer = send(client, fill(client) | PICKED)
    shown = page(answer)
    assert answer.status_code == 200
    assert kitchen.written == []
    rows = [[cell.get_text() for cell in row.find_all(["th", "td"])] for row in shown.find_all("tr")]
    assert rows[1:] == [["tomato", "1.0 lb", "3.0 lb"], ["All of 2026", "9.0 lb", "11.0 lb"]]
    assert "{crop: tomato}" in shown.get_text()
    done = send(client, fields(shown))
    assert done.status_code == 303
    assert kitchen.written == [(Typed(**PICKED), "{crop: tomato}")]
    after = page(client.get(done.headers["Location"], base_url=HERE))
    status = after.find(role="status")
    assert status is not None
    assert "Written: tomato, 2 lb." in status.get_text()
    assert "All of 2026: 11.0 lb." in status.get_text()
    assert fields(after)["what"] == ""
    assert fields(after)["day"] == "2026-06-02"


def test_a_picking_from_inside_a_wait_is_written_only_where_somebody_answers_for_it(
    client: Client, kitchen: Kitchen
) -> None:
    assert isinstance(kitchen.answer, FormHeard)
    kitchen.answer = replace(kitchen.answer, waits="treated on 1 June, not before 9 June", asks=True)
    looked = page(send(client, fill(client) | PICKED))
    assert "treated on 1 June, not before 9 June" in looked.get_text()
    (box,) = looked.select("input[type=checkbox][required]")
    told = {name: text for name, text in fields(looked).items() if name != box["name"]}
    assert send(client, told).status_code == 422
    assert kitchen.written == []
    again = fields(page(send(client, fill(client) | PICKED)))
    assert send(client, again).status_code == 303
    assert len(kitchen.written) == 1


def test_a_second_press_of_the_button_writes_nothing_more(client: Client, kitchen: Kitchen) -> None:
    shown = fields(page(send(client, fill(client) | PICKED)))
    assert send(client, shown).status_code == 303
    assert send(client, shown).status_code == 303
    assert len(kitchen.written) == 1


def test_a_second_press_while_the_first_is_written_waits_for_it(client: Client, kitchen: Kitchen) -> None:
    shown = fields(page(send(client, fill(client) | PICKED)))
    again: list[Future[TestResponse]] = []
    write = kitchen.write

    with ThreadPoolExecutor() as pool:

        def slowly(typed: Typed, row: str, *, inside: bool = False) -> FormHeard | Wrong:
            again.append(pool.submit(send, client, shown))
            wait(again, timeout=0.2)
            return write(typed, row, inside=inside)

        kitchen.write = slowly  # type: ignore[method-assign]
        first = send(client, shown)
        second = again[0].result(timeout=5)
    assert (first.status_code, second.status_code) == (303, 303)
    assert len(kitchen.written) == 1


@pytest.mark.parametrize("change", [{"row": "{crop: kale}"}, {"weight": "200 lb"}, {"to": "me"}])
def test_what_was_not_shown_is_not_written(client: Client, kitchen: Kitchen, change: dict[str, str]) -> None:
    shown = fields(page(send(client, fill(client) | PICKED)))
    answer = send(client, shown | change)
    assert answer.status_code == 403
    assert kitchen.written == []
    assert "Nothing was written. This is not what was shown." in " ".join(page(answer).get_text().split())
    assert fields(page(answer))["what"] == "tomato"


@pytest.mark.parametrize("token", ["", "0" * 64])
@pytest.mark.parametrize("step", ["look", "write"])
def test_a_wrong_token_is_refused_at_each_step(
    client: Client, kitchen: Kitchen, token: str, step: str
) -> None:
    data = fill(client) | PICKED
    if step == "write":
        data = fields(page(send(client, data)))
        kitchen.heard.clear()
    answer = send(client, data | {"token": token})
    assert answer.status_code == 403
    assert (kitchen.heard, kitchen.written) == ([], [])
    # After a restart this is what an honest form comes to: nothing that was typed is lost.
    again = fields(page(answer))
    assert "started again" in page(answer).get_text()
    assert {name: again[name] for name in PICKED} == PICKED
    assert page(send(client, again)).find("h1", string="Is this right?") is not None


def test_a_slip_is_of_the_session_it_was_shown_in(client: Client, kitchen: Kitchen) -> None:
    shown = fields(page(send(client, fill(client) | PICKED)))
    client.delete_cookie("tallybed-8640", domain="127.0.0.1")
    token = fill(client)["token"]
    assert send(client, shown | {"token": token}).status_code == 403
    assert kitchen.written == []


def test_a_made_up_slip_is_shown_again_first(client: Client, kitchen: Kitchen) -> None:
    answer = send(client, fill(client) | PICKED | {"slip": "made-up", "row": "{crop: tomato}"})
    assert answer.status_code == 422
    assert fields(page(answer))["what"] == "tomato"
    assert kitchen.written == []


def test_what_is_wrong_stands_at_its_field_and_what_was_typed_stays(client: Client, kitchen: Kitchen) -> None:
    kitchen.answer = Wrong(by_field={"weight": f"No {NASTY}", "squares": "No such squares."})
    answer = send(client, fill(client) | PICKED | {"squares": NASTY, "note": NASTY})
    assert answer.status_code == 422
    shown = page(answer)
    for name, words in (("weight", f"No {NASTY}"), ("squares", "No such squares.")):
        box = shown.find(id=name)
        assert isinstance(box, Tag)
        assert box["aria-invalid"] == "true"
        wrong = shown.find(id=f"{name}-wrong")
        assert isinstance(wrong, Tag)
        assert wrong.get_text() == words
        assert wrong["id"] in str(box["aria-describedby"]).split()
    note = shown.find(id="note")
    assert isinstance(note, Tag)
    assert not note.has_attr("aria-invalid")
    assert fields(shown)["squares"] == fields(shown)["note"] == NASTY
    alert = shown.find(role="alert")
    assert alert is not None
    assert "Nothing was written" in alert.get_text()


def test_a_question_is_asked_and_its_answer_goes_along(client: Client, kitchen: Kitchen) -> None:
    kitchen.answer = Asked(words=f"“beans” {NASTY}", choices=("BB1 bush bean", NASTY))
    shown = page(send(client, fill(client) | PICKED))
    choices = shown.select("fieldset input[type=radio][name=choice]")
    assert [choice["value"] for choice in choices] == ["BB1 bush bean", NASTY]
    assert shown.select_one("fieldset legend") is not None
    send(client, fields(shown) | {"choice": NASTY})
    assert kitchen.heard[-1] == replace(Typed(**PICKED), choices=(NASTY,))


def test_answers_given_before_go_along_with_the_next_and_into_writing(
    client: Client, kitchen: Kitchen
) -> None:
    """A picking of two questions could not be weighed in: the answer to one was lost at the other."""
    understood, first, second = kitchen.answer, ("12 oz", "12 lb"), ("TO1 tomato", "TO2 tomato")
    kitchen.answer = Asked(words="Which unit", choices=first)
    shown = fields(page(send(client, fill(client) | PICKED)))
    kitchen.answer = Asked(words="Which planting", choices=second)
    shown = fields(page(send(client, shown | {"choice": "12 lb"})))
    assert shown["choice"] == "12 lb"
    kitchen.answer = understood
    both = {**shown, "choice": ["12 lb", "TO2 tomato"]}
    looked = page(client.post(WEIGH, base_url=HERE, headers={"Origin": HERE}, data=both))
    kept = [str(one["value"]) for one in looked.select("input[type=hidden][name=choice]")]
    assert kept == ["12 lb", "TO2 tomato"]
    done = client.post(WEIGH, base_url=HERE, headers={"Origin": HERE}, data=fields(looked) | {"choice": kept})
    assert done.status_code == 303
    assert kitchen.written[0][0].choices == ("12 lb", "TO2 tomato")


def test_everything_shown_before_writing_is_escaped(client: Client, kitchen: Kitchen) -> None:
    kitchen.answer = FormHeard(
        words=NASTY, row=NASTY, ledger=NASTY, doubt=NASTY, running=((NASTY, NASTY, NASTY),)
    )
    shown = page(send(client, fill(client) | dict.fromkeys(PICKED, NASTY)))
    assert fields(shown)["row"] == NASTY
    page(client.get(send(client, fields(shown)).headers["Location"], base_url=HERE))
    page(client.get(f"{WEIGH}?what={'%22%3E%3Cscript%3E'}&day=%22%3E&slip=%22", base_url=HERE))


def test_one_can_go_back_and_change_something(client: Client, kitchen: Kitchen) -> None:
    shown = fields(page(send(client, fill(client) | PICKED)))
    again = page(send(client, shown | {"change": "yes"}))
    assert {name: fields(again)[name] for name in PICKED} == PICKED
    assert kitchen.written == []


def test_what_the_ledger_does_not_take_is_said(client: Client, kitchen: Kitchen) -> None:
    shown = fields(page(send(client, fill(client) | PICKED)))
    kitchen.wrong = Wrong(whole="The ledger is full.")
    answer = send(client, shown)
    assert answer.status_code == 422
    assert "Nothing was written. The ledger is full." in " ".join(page(answer).get_text().split())


def test_a_link_fills_in_what_is_ripe(client: Client) -> None:
    link = page(client.get(WEIGH, base_url=HERE)).select_one(".ripe a")
    assert link is not None
    assert fields(page(client.get(str(link["href"]), base_url=HERE)))["what"] == "TO1"


def test_fields_are_cut_to_one_line_of_a_bearable_length(client: Client, kitchen: Kitchen) -> None:
    send(client, fill(client) | PICKED | {"note": "a\r\n- {b: c}\r\n" + "x" * 5000})
    note = kitchen.heard[-1].note
    assert re.fullmatch(r"a - \{b: c\} x+", note)
    assert len(note) == 300


def test_a_link_can_fill_in_every_field(client: Client) -> None:
    """Somebody whose phone had to tell the code again comes back to the form by such a link."""
    told = PICKED | {"squares": "C2", "count": "4", "to": "pantry", "note": NASTY}
    filled = fields(page(client.get(WEIGH, base_url=HERE, query_string=told)))
    assert {name: filled[name] for name in told} == told
