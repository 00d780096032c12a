"""Who the gate lets through: this machine's own pages, and devices that told a code that is good once."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qs, urlsplit

import pytest
from bs4 import BeautifulSoup
from werkzeug.datastructures import MultiDict
from werkzeug.test import Client, TestResponse
from werkzeug.wrappers import Request, Response

from tallybed.server.gate import DIGITS, MOST_TRIES, SESSION, Door, Gate, forged

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

HERE = "http://127.0.0.1:8640"
LAN = "http://192.168.1.20:8640"
FORM = "/.tallybed/weigh"


class Inner:
    """What lies behind the gate: it notes what comes through."""

    def __init__(self) -> None:
        self.got: list[str] = []

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        request = Request(environ)
        word = "forged" if request.method == "POST" and forged(request) else str(environ[SESSION])
        self.got.append(f"{request.method} {request.path} {word}")
        return Response(word)(environ, start_response)


def client(inner: Inner, hosts: tuple[str, ...], door: Door | None = None) -> Client:
    return Client(Gate(inner, hosts, 8640, door))


@pytest.fixture
def inner() -> Inner:
    return Inner()


@pytest.fixture
def here(inner: Inner) -> Client:
    return client(inner, ("127.0.0.1", "localhost"))


def post(
    client: Client, path: str = FORM, base: str = HERE, origin: str | None = "", **more: Any
) -> TestResponse:
    headers = {} if origin is None else {"Origin": origin or base}
    return client.post(path, base_url=base, headers=headers, **more)


def test_a_form_with_its_token_comes_through(here: Client, inner: Inner) -> None:
    token = here.get(FORM, base_url=HERE).text
    assert re.fullmatch(r"[0-9a-f]{64}", token)
    assert post(here, data={"token": token}).text == token
    assert inner.got == [f"GET {FORM} {token}", f"POST {FORM} {token}"]


@pytest.mark.parametrize(
    "origin",
    [
        None,
        "null",
        "http://evil.example",
        "https://127.0.0.1:8640",
        "http://127.0.0.1",
        "http://127.0.0.1:8641",
        "http://localhost:8640",
        "http://127.0.0.1:8640.evil.example",
        "http://127.0.0.1:8640/",
    ],
)
def test_a_form_from_elsewhere_never_comes_through(here: Client, inner: Inner, origin: str | None) -> None:
    token = here.get(FORM, base_url=HERE).text
    inner.got.clear()
    answer = post(here, data={"token": token}, origin=origin)
    assert answer.status_code == 403
    assert inner.got == []


@pytest.mark.parametrize("told", ["", "0" * 64, "é"])
def test_a_form_without_its_sessions_token_is_forged(here: Client, told: str) -> None:
    here.get(FORM, base_url=HERE)
    assert post(here, data={"token": told}).text == "forged"
    assert post(here, data={"what": "tomato"}).text == "forged"


def test_a_token_is_good_in_its_own_session_and_its_own_run(here: Client, inner: Inner) -> None:
    token = here.get(FORM, base_url=HERE).text
    here.delete_cookie("tallybed-8640", domain="127.0.0.1")
    assert post(here, data={"token": token}).text == "forged", "a form without the cookie of its page"
    anew = client(inner, ("127.0.0.1",))
    anew.set_cookie("tallybed-8640", "mine", domain="127.0.0.1")
    other = client(inner, ("127.0.0.1",))
    other.set_cookie("tallybed-8640", "mine", domain="127.0.0.1")
    token = anew.get(FORM, base_url=HERE).text
    assert post(anew, data={"token": token}).text == token
    assert post(other, data={"token": token}).text == "forged", "another run has another secret"


def test_the_cookie_is_for_this_place_alone(here: Client) -> None:
    cookie = here.get("/", base_url=HERE).headers["Set-Cookie"]
    assert cookie.startswith("tallybed-8640=")
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(cookie.split("; "))
    assert "Set-Cookie" not in here.get("/", base_url=HERE).headers


@pytest.mark.parametrize(
    "base", ["http://evil.example:8640", "http://127.0.0.1:1", "http://192.168.1.20:8640"]
)
def test_another_name_is_refused_whatever_is_asked(here: Client, inner: Inner, base: str) -> None:
    assert here.get(FORM, base_url=base).status_code == 403
    assert post(here, base=base).status_code == 403
    assert inner.got == []


def test_only_forms_are_taken_and_only_where_forms_are(here: Client, inner: Inner) -> None:
    assert post(here, "/2026/", data={"a": "b"}).status_code == 405
    assert post(here, data="{}", content_type="application/json").status_code == 415
    assert post(here, data="token=x", content_type="text/plain").status_code == 415
    assert here.put(FORM, base_url=HERE, headers={"Origin": HERE}).status_code == 405
    assert inner.got == []


@pytest.fixture
def said() -> list[str]:
    return []


@pytest.fixture
def door(said: list[str]) -> Door:
    return Door(said.append)


@pytest.fixture
def phone(inner: Inner, door: Door) -> Client:
    return client(inner, ("192.168.1.20",), door)


def knock(phone: Client, code: str) -> TestResponse:
    return post(phone, "/.tallybed/come-in", base=LAN, data={"code": code})


def another(code: str) -> str:
    return "".join(str((int(sign) + 1) % 10) for sign in code.replace(" ", ""))


def test_a_stranger_sees_the_question_for_the_code_and_nothing_else(phone: Client, inner: Inner) -> None:
    for path in ("/", "/2026/", FORM, "/.tallybed/changes", "/.tallybed/come-in"):
        answer = phone.get(path, base_url=LAN)
        assert answer.status_code == 403
        page = BeautifulSoup(answer.text, "html.parser")
        code = page.select_one('form[method=post][action="/.tallybed/come-in"] input[name=code]')
        assert code is not None, path
        assert page.select_one(f'label[for="{code["id"]}"]') is not None
    assert post(phone, base=LAN, data={"token": "x"}).status_code == 403
    assert phone.get("/.tallybed/desk.css", base_url=LAN).status_code == 200, "the question has no style"
    assert inner.got == []


def test_the_code_lets_one_device_in_and_is_spent(
    phone: Client, inner: Inner, door: Door, said: list[str]
) -> None:
    code = door.code
    assert re.fullmatch(rf"\d{{{DIGITS // 2}}} \d{{{DIGITS // 2}}}", code)
    answer = knock(phone, f" {code.replace(' ', '-')} ")
    assert (answer.status_code, answer.headers["Location"]) == (303, "/")
    assert phone.get("/", base_url=LAN).status_code == 200
    token = phone.get(FORM, base_url=LAN).text
    assert post(phone, base=LAN, data={"token": token}).text == token
    assert said == [f"A device has been let in. The code for another one: {door.code}"]
    second = client(inner, ("192.168.1.20",), door)
    assert knock(second, code).status_code == 403, "the code was good twice"
    assert second.get("/", base_url=LAN).status_code == 403
    assert knock(second, door.code).status_code == 303


def test_what_a_stranger_typed_into_a_form_is_kept_until_the_code_is_told(
    phone: Client, inner: Inner, door: Door
) -> None:
    told = {"what": 'beet & "kale"', "weight": "2 lb", "choice": ["a", "b"]}
    asked = post(phone, base=LAN, data={"token": "of before", **told})
    for code in (another(door.code), door.code):
        page = BeautifulSoup(asked.text, "html.parser")
        assert "What you typed is kept" in page.get_text()
        hidden = [(str(one["name"]), str(one["value"])) for one in page.select("input[type=hidden]")]
        kept = MultiDict([*hidden, ("code", code)])
        asked = post(phone, "/.tallybed/come-in", base=LAN, data=kept)
    assert inner.got == []
    address = urlsplit(asked.headers["Location"])
    assert (asked.status_code, address.path, parse_qs(address.query)) == (
        303,
        FORM,
        {"what": ['beet & "kale"'], "weight": ["2 lb"], "choice": ["a", "b"]},
    )


@pytest.mark.parametrize(
    "to", ["https://evil.example/", "//evil.example", "/.tallybed//evil.example", "/2026/"]
)
def test_the_code_leads_to_no_other_place(phone: Client, door: Door, to: str) -> None:
    answer = post(
        phone, "/.tallybed/come-in", base=LAN, data={"code": door.code, "sent-to": to, "what": "beet"}
    )
    assert (answer.status_code, answer.headers["Location"]) == (303, "/")


def test_a_few_wrong_codes_shut_the_door_even_to_the_right_one(
    phone: Client, inner: Inner, door: Door, said: list[str]
) -> None:
    for _ in range(MOST_TRIES):
        answer = knock(phone, another(door.code))
        assert answer.status_code == 403
        assert inner.got == []
    assert door.shut
    assert len(said) == 1
    assert knock(phone, door.code).status_code == 403
    assert "Too many wrong codes" in phone.get("/", base_url=LAN).text


def test_those_inside_stay_when_the_door_is_shut(phone: Client, door: Door, inner: Inner) -> None:
    knock(phone, door.code)
    stranger = client(inner, ("192.168.1.20",), door)
    for _ in range(MOST_TRIES):
        knock(stranger, another(door.code))
    assert door.shut
    assert phone.get("/", base_url=LAN).status_code == 200


@pytest.mark.parametrize("code", ["", " ", "٤" * DIGITS, "1" * 10_000, "0" * (DIGITS - 1), "\ud7ff"])
def test_what_is_no_code_lets_nobody_in(phone: Client, door: Door, code: str) -> None:
    door._code = "0" * DIGITS
    assert knock(phone, code).status_code == 403


@pytest.mark.parametrize("session", ["", "guess", "x" * 3000])
def test_a_made_up_session_is_a_stranger(phone: Client, inner: Inner, session: str) -> None:
    phone.set_cookie("tallybed-8640", session, domain="192.168.1.20")
    assert phone.get("/", base_url=LAN).status_code == 403
    assert inner.got == []


def test_a_code_from_another_place_is_not_looked_at(phone: Client, door: Door) -> None:
    for _ in range(MOST_TRIES + 1):
        answer = post(
            phone,
            "/.tallybed/come-in",
            base=LAN,
            data={"code": "x"},
            origin="http://evil.example",
        )
        assert answer.status_code == 403
    assert not door.shut, "a page of elsewhere can shut the door"


def test_a_huge_form_is_not_read(phone: Client) -> None:
    assert knock(phone, "1" * 30_000).status_code == 413
