"""Nobody but this computer's own browser, with the token; what attackers of local servers try is refused
(OWASP cheat sheets on cross-site request forgery, DNS rebinding and content security policies)."""

import pytest
from starlette.testclient import TestClient

from footlight.desk import server
from footlight.desk.app import ROWS
from footlight.desk.guard import Keys
from footlight.errors import InputError


def test_without_the_token_nothing_is_shown(stranger: TestClient):
    for path in ("/tonight", "/prints/41", "/static/desk.css", "/?token=", "/?token=abc", "/no-such-page"):
        answer = stranger.get(path)
        assert answer.status_code == 403
        assert "41" not in answer.text


def test_the_token_is_changed_for_a_cookie_that_only_our_own_pages_send(stranger: TestClient, keys: Keys):
    answer = stranger.get(f"/?token={keys.token}")
    cookie = answer.headers["set-cookie"].lower()
    assert answer.status_code == 303 and keys.token not in answer.headers["location"]
    assert "samesite=strict" in cookie and "httponly" in cookie and keys.token.lower() not in cookie
    assert stranger.get("/prints").status_code == 200


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8724", "127.0.0.1", "127.0.0.1:80", ""])
def test_a_name_that_was_pointed_here_is_none_of_ours(browser: TestClient, host: str):
    assert browser.get("/prints", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:9999", "", None])
def test_a_change_from_elsewhere_is_refused(browser: TestClient, origin: str | None):
    del browser.headers["origin"]
    headers = {} if origin is None else {"origin": origin}
    for row in ROWS:
        if row.changes:
            path = row.path.replace("{number:int}", "41")
            assert browser.post(path, data={"verdict": "good"}, headers=headers).status_code == 403
    assert "verdict: good" not in browser.get("/prints/41").text


def test_a_site_beside_ours_is_refused_whatever_origin_it_says(browser: TestClient):
    answer = browser.post("/look", data={"look": "dim"}, headers={"sec-fetch-site": "same-site"})
    assert answer.status_code == 403


def test_no_answer_may_be_read_framed_or_scripted(browser: TestClient):
    for path in ("/tonight", "/prints/41", "/no-such-page", "/static/htmx.min.js"):
        headers = browser.get(path, headers={"origin": "http://evil.example"}).headers
        policy = headers["content-security-policy"]
        assert (
            "default-src 'none'" in policy and "unsafe" not in policy and "frame-ancestors 'none'" in policy
        )
        assert "access-control-allow-origin" not in headers
        assert headers["x-content-type-options"] == "nosniff"


def test_only_this_computers_own_addresses_listen():
    bound = server.sockets(0)
    try:
        assert {listening.getsockname()[0] for listening in bound} <= {"127.0.0.1", "::1"}
        with pytest.raises(InputError, match="cannot be had"):
            server.sockets(server.port_of(bound))
    finally:
        for listening in bound:
            listening.close()


def test_a_form_without_length_or_beyond_all_scans_is_refused_in_a_sentence(browser: TestClient):
    answer = browser.post("/look", content=iter([b"look=dim"]))
    assert "without its length" in answer.text
    answer = browser.post("/prints/41/write", content=b"x", headers={"content-length": "2000000000"})
    assert "2000 MB were sent" in answer.text and "600 MB" in answer.text
