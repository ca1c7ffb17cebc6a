#!/usr/bin/env python3
"""Who may look: each guard of the house on the real program, over http on this machine, over http and TLS in a home network that
a network namespace plays. Each case fails where its guard is taken out.

    secure.py PROGRAM FOLDER

Needs the right to make a network namespace (root); without it the check fails and says so.
"""
import hashlib
import hmac
import json
import os
import re
import shutil
import ssl
import subprocess
import sys

from visitor import FORM, JPEG, House, Tally, fail, listening

program, folder = sys.argv[1], sys.argv[2]
tally = Tally()
ID = "0123456789abcdef" * 2


def statuses(house, cases):
    for what, expected, *asked in cases:
        method, target, more = asked[0], asked[1], asked[2] if len(asked) > 2 else {}
        tally.expect(what, house.status(method, target, **more), expected)


def unpaired(house):
    house.cookie = None
    statuses(house, [
        ("a page without pairing", 303, "GET", "/"),
        ("a car without pairing", 303, "GET", "/car/pip"),
        ("an address that is none, without pairing", 303, "GET", "/nowhere"),
        ("the script of the rooms without pairing", 303, "GET", "/page.js"),
        ("an entry without pairing", 401, "POST", "/entry", {"body": b"do=note"}),
        ("an entry of an outbox without pairing", 401, "PUT", f"/entry/{ID}", {"body": b"do=note"}),
        ("a photo without pairing", 401, "PUT", f"/entry/{ID}/photo", {"body": JPEG}),
        ("the pairing page", 200, "GET", "/pair"),
        ("its style", 200, "GET", "/style.css"),
        ("its script", 200, "GET", "/pair.js"),
    ])


def hosts_and_origins(house):
    other = str(house.port + 1)
    for host in ("evil.example", f"evil.example:{house.port}", "127.0.0.1", f"127.0.0.1:{other}", f"{house.host}.", f"{house.host}.evil.example"):
        for target in ("/pair", "/style.css", "/", "/nowhere"):
            tally.expect(f"{target} by the host {host}", house.status("GET", target, host=host), 421)
    tally.expect("two hosts", house.status("GET", "/", {"Host": [house.host, "evil.example"]}), 421)
    note = b"do=note&vehicle=pip&text=x&kept=" + ID.encode()
    for origins in ("http://evil.example", "null", f"https://{house.host}", f"http://127.0.0.1:{other}", f"{house.origin}/",
                    [house.origin, "http://evil.example"], None):
        for method, target in (("POST", "/entry"), ("PUT", f"/entry/{ID}"), ("POST", "/pair")):
            tally.expect(f"{method} {target} with the origin {origins}",
                         house.status(method, target, {"Origin": origins} if origins else {}, note, origin=False), 403)
    statuses(house, [
        ("another site's picture", 403, "GET", "/", {"headers": {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}}),
        ("another port's picture", 403, "GET", "/style.css", {"headers": {"Sec-Fetch-Site": "same-site", "Sec-Fetch-Mode": "no-cors"}}),
        ("another site's form", 403, "POST", "/entry", {"headers": {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}, "body": note}),
        ("another site's link", 200, "GET", "/", {"headers": {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}}),
        ("a form of text/plain", 415, "POST", "/entry", {"headers": {"Content-Type": "text/plain"}, "body": note}),
    ])
    for method in ("OPTIONS", "DELETE", "PATCH", "TRACE", "PROPFIND"):
        status, headers, _ = house.ask(method, "/entry", {"Access-Control-Request-Method": "PUT"})
        tally.expect(method, status, 405)
        tally.holds(f"{method} allows no other site", not any(name.startswith("access-control") for name in headers))
    tally.expect("the entries after all that", house.run("entries", "--json", "--book", house.book), house.before)


def pairing(house):
    status, headers, _ = house.ask("POST", "/pair", body=b"code=0123456789abcdef&device=phone")
    tally.expect("a wrong code", status, 403)
    tally.holds("a wrong code sets no cookie", "set-cookie" not in headers)
    status, headers, _ = house.pair()
    tally.expect("the code", status, 303)
    tally.holds("its cookie", re.fullmatch(rf"nonrunner-{house.port}=[0-9a-f]{{64}}; Path=/; Max-Age=31536000; HttpOnly; SameSite=Strict",
                                           headers["set-cookie"]))
    first = house.cookie
    tally.expect("the code a second time", house.status("POST", "/pair", body=f"code={house.code}&device=other".encode()), 403)
    tally.expect("a page with the cookie", house.status("GET", "/"), 200)
    house.cookie = first[:-1] + ("0" if first[-1] != "0" else "1")
    tally.expect("a page with a digit of it changed", house.status("GET", "/"), 303)
    house.cookie = first + "; " + first
    tally.expect("a page with the cookie twice", house.status("GET", "/"), 303)
    house.cookie = first
    # By a cookie that another port of this machine set before: a new one is made at each pairing.
    again = house.run("serve", "--pair", "--book", house.book)
    code = re.search(r"#([0-9a-f]{16})", again).group(1)
    tally.expect("a second device", house.pair(code, "tablet")[0], 303)
    tally.holds("it has a cookie of its own", house.cookie != first)
    for _ in range(5):
        last = house.status("POST", "/pair", body=b"code=ffffffffffffffff&device=x")
    house.run("serve", "--pair", "--book", house.book)
    for at in range(5):
        last = house.status("POST", "/pair", body=f"code={at:016x}&device=x".encode())
    tally.expect("the fifth wrong code", last, 429)
    house.run("serve", "--forget", "tablet", "--book", house.book)
    tally.expect("a page of a device that was forgotten", house.status("GET", "/"), 303)
    tally.expect("an entry of it", house.status("PUT", f"/entry/{ID}", body=b"do=note"), 401)
    house.cookie = first
    names = [(row["name"], row["forgotten"] is None) for row in json.loads(house.run("serve", "--devices", "--json", "--book", house.book))]
    tally.expect("the list of devices", names, [("phone", True), ("tablet", False)])
    with open(house.book, "rb") as book:
        kept = book.read()
    if os.path.exists(house.book + "-wal"):
        with open(house.book + "-wal", "rb") as log:
            kept += log.read()
    token = first.split("=")[1]
    tally.holds("the token is not in the book", token.encode() not in kept)
    tally.holds("its SHA-256 is", hashlib.sha256(token.encode()).hexdigest().encode() in kept)
    tally.holds("the code is not in the book", house.code.encode() not in kept)


def proof(house):
    """RFC 2104 by another program: what the house says of a nonce is HMAC-SHA-256 with the key that pairing gave."""
    code = re.search(r"#([0-9a-f]{16})", house.run("serve", "--pair", "--book", house.book)).group(1)
    _, _, told = house.ask("POST", "/pair", {"Accept": "application/json"}, f"code={code}&device=laptop".encode(), cookie=False)
    told = json.loads(told)
    nonce = "5a" * 16
    status, _, said = house.ask("GET", f"/proof?device={told['device']}&nonce={nonce}", cookie=False)
    tally.expect("the house proves itself", status, 200)
    tally.expect("its proof", json.loads(said)["proof"], hmac.new(bytes.fromhex(told["key"]), nonce.encode(), hashlib.sha256).hexdigest())
    tally.expect("a proof to nobody", house.status("GET", f"/proof?device={'0' * 32}&nonce={nonce}", cookie=False), 404)
    tally.expect("a proof of a short nonce", house.status("GET", f"/proof?device={told['device']}&nonce=00", cookie=False), 404)


def headers_of_every_answer(house):
    policy = ("default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; manifest-src 'self'; "
              "form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
    for method, target, more in (("GET", "/", {}), ("GET", "/pair", {}), ("HEAD", "/", {}), ("GET", "/nowhere", {}), ("GET", "/style.css", {}),
                                 ("DELETE", "/", {}), ("GET", "/", {"host": "evil.example"}), ("GET", "/car/%00", {}), ("POST", "/entry", {"body": b""})):
        _, headers, text = house.ask(method, target, **more)
        for name, expected in (("content-security-policy", policy), ("x-content-type-options", "nosniff"), ("referrer-policy", "same-origin"),
                               ("cross-origin-resource-policy", "same-origin"), ("cross-origin-opener-policy", "same-origin"),
                               ("x-frame-options", "DENY")):
            tally.expect(f"{name} of {method} {target}", headers.get(name), expected)
        tally.holds(f"{method} {target} says nothing to other sites", not any(name.startswith("access-control") for name in headers))
        tally.holds(f"{method} {target} holds no script or style of its own",
                    not re.search(rb"<script(?![^>]* src=)|<style|\son[a-z]+=|\sstyle=", text))
        if method == "HEAD":
            tally.expect("the body of HEAD", text, b"")
    tally.expect("figures are not kept by the browser", house.ask("GET", "/")[1]["cache-control"], "no-store")


def log(house):
    with open(house.book + ".log") as file:
        text = file.read()
    tally.expect("lines of the log, one for each request", text.count("\n"), house.asked)
    tally.holds("and each of them says when, who, how, what and how it ended", all(
        re.fullmatch(r'\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ "[^"]*" (-|[A-Za-z]+) (-|/\S*) \d{3} \d+\.\d', line) for line in text.splitlines()))
    for what, secret in (("a code", house.code), ("a token", house.cookie.split("=")[1]), ("what was typed", "evil"), ("a query", "?")):
        tally.holds(f"{what} is not in it", secret not in text)
    tally.expect("who may read it", oct(os.stat(house.book + ".log").st_mode & 0o777), "0o600")


def twice_and_taken(house):
    second = subprocess.run([program, "serve", "--book", house.book, "--port", "0"], capture_output=True, text=True, timeout=30, env=house.environment)
    tally.expect("the same book served twice", (second.returncode, second.stderr), (
        1, f"nonrunner: serve: {house.book} is served already at {house.origin}{house.also}; use that one, or end it first\n"))
    other = os.path.join(folder, "other.book")
    house.run("start", other)
    taken = subprocess.run([program, "serve", "--book", other, "--port", str(house.port)], capture_output=True, text=True, timeout=30, env=house.environment)
    tally.expect("a port that is taken", (taken.returncode, taken.stderr), (
        3, f"nonrunner: serve: port {house.port} of 127.0.0.1 is taken by another program, expected a free one; choose another port\n"))
    for words, why in (("--lan 8.8.8.8 --plain", "found \"8.8.8.8\", expected one private address"), ("--lan 0.0.0.0 --plain", "found \"0.0.0.0\""),
                       ("--lan :: --plain", "found \"::\""), ("--lan laptop.local --plain", "found \"laptop.local\"")):
        refused = subprocess.run([program, "serve", "--book", other, *words.split()], capture_output=True, text=True, timeout=30, env=house.environment)
        tally.holds(f"{words} is wrong usage", refused.returncode == 2 and why in refused.stderr)
    asked = subprocess.run([program, "serve", "--book", other, "--lan", "192.168.77.1"], capture_output=True, text=True, timeout=30, env=house.environment,
                           stdin=subprocess.DEVNULL)
    tally.holds("where nobody can be asked which way, both are named", asked.returncode == 1 and "--plain" in asked.stderr and "--authority" in asked.stderr)


def on_this_machine():
    before = listening()
    house = House(program, os.path.join(folder, "here"))
    try:
        port = f"{house.port:04X}"
        new = listening() - before
        here = {f"0100007F:{port}", f"{'0' * 24}01000000:{port}"}
        tally.holds(f"only this machine's own addresses are listened at, found {sorted(new)}", f"0100007F:{port}" in new and new <= here)
        house.also = f" http://[::1]:{house.port}" if len(new) == 2 else ""
        house.before = house.run("entries", "--json", "--book", house.book)
        unpaired(house)
        pairing(house)
        hosts_and_origins(house)
        proof(house)
        headers_of_every_answer(house)
        twice_and_taken(house)
        log(house)
        took, status = house.close()
        tally.holds(f"it ends at once, found {took:.2f} s and status {status}", took < 2 and status == 0)
    finally:
        house.end()


NAMESPACE = f"page-{os.getpid()}"


def namespace(*words):
    done = subprocess.run(["ip", *words], capture_output=True, text=True)
    if done.returncode != 0:
        fail(f"ip {' '.join(words)}: {done.stderr.strip()}; a network namespace is needed (as root)")


INSIDE = r"""
import http.client, json, re, ssl, sys
kind, port, code, trusted = sys.argv[1], int(sys.argv[2]), sys.argv[3], sys.argv[4]
out = {"listening": []}
for line in open("/proc/self/net/tcp").readlines()[1:]:
    if line.split()[3] == "0A":
        out["listening"].append(line.split()[1])
def wire(port=port, context=None):
    return http.client.HTTPSConnection("192.168.77.1", port, timeout=10, context=context) if context else http.client.HTTPConnection("192.168.77.1", port, timeout=10)
def ask(connection, method, target, headers={}, body=None):
    connection.request(method, target, body, headers)
    answer = connection.getresponse()
    text = answer.read()
    return [answer.status, dict(answer.getheaders()), text.decode("latin1")]
if kind == "http":
    out["pair"] = ask(wire(), "GET", "/pair")
else:
    out["authority"] = ask(wire(port + 1), "GET", "/authority.crt")
    out["other"] = ask(wire(port + 1), "GET", "/pair")
    open(trusted, "w").write(out["authority"][2])
    try:
        ask(wire(port, ssl.create_default_context()), "GET", "/pair")
        out["stranger"] = "taken"
    except ssl.SSLError as error:
        out["stranger"] = "refused"
    context = ssl.create_default_context(cafile=trusted)
    out["pair"] = ask(wire(port, context), "GET", "/pair")
    out["version"] = wire(port, context)
    connection = wire(port, context); connection.connect(); out["version"] = connection.sock.version()
    old = ssl.create_default_context(cafile=trusted); old.maximum_version = ssl.TLSVersion.TLSv1_1; old.minimum_version = ssl.TLSVersion.TLSv1
    try:
        old.set_ciphers("ALL:@SECLEVEL=0"); ask(wire(port, old), "GET", "/pair"); out["old"] = "taken"
    except (ssl.SSLError, OSError):
        out["old"] = "refused"
    origin = {"Origin": f"https://192.168.77.1:{port}", "Content-Type": "application/x-www-form-urlencoded"}
    out["plain origin"] = ask(wire(port, context), "POST", "/pair", {**origin, "Origin": f"http://192.168.77.1:{port}"}, f"code={code}&device=x")[0]
    out["paired"] = ask(wire(port, context), "POST", "/pair", origin, f"code={code}&device=phone")
    out["authority later"] = ask(wire(port + 1), "GET", "/authority.crt")[0]
print(json.dumps(out))
"""


def in_a_home_network(kind):
    at = os.path.join(folder, kind)
    inside = ["ip", "netns", "exec", NAMESPACE]
    port = 8417
    house = House(program, at, "--lan", "192.168.77.1", "--plain" if kind == "http" else "--authority", port=str(port), into=inside)
    try:
        done = subprocess.run([*inside, sys.executable, "-c", INSIDE, kind, str(port), house.code, os.path.join(at, "trusted.pem")],
                              capture_output=True, text=True, timeout=60)
        if done.returncode != 0:
            fail(f"{kind}: {done.stderr.strip()}")
        found = json.loads(done.stdout)
        wanted = {f"0100007F:{port:04X}", f"014DA8C0:{port:04X}"} | ({f"014DA8C0:{port + 1:04X}"} if kind == "https" else set())
        tally.expect(f"{kind}: what is listened at", set(found["listening"]), wanted)
        tally.expect(f"{kind}: the pairing page", found["pair"][0], 200)
        if kind == "http":
            tally.holds("http says that everybody can read along", "everybody in this network can read along" in house.said)
        else:
            encoded = "".join(found["authority"][2].strip().splitlines()[1:-1])
            fingerprint = hashlib.sha256(ssl.PEM_cert_to_DER_cert(found["authority"][2])).hexdigest().upper()
            tally.holds("the terminal shows the fingerprint of the authority that is offered",
                        encoded and ":".join(re.findall("..", fingerprint)) in house.said)
            tally.expect("nothing else is answered beside the authority", found["other"][0], 404)
            tally.expect("who does not trust the authority", found["stranger"], "refused")
            tally.holds("TLS is 1.2 or later", found["version"] in ("TLSv1.2", "TLSv1.3"))
            tally.expect("TLS 1.1", found["old"], "refused")
            tally.expect("an origin of http under TLS", found["plain origin"], 403)
            tally.holds("the cookie goes under TLS only", found["paired"][0] == 303 and found["paired"][1]["Set-Cookie"].endswith("; Secure"))
            tally.expect("the authority is not offered once the code is used", found["authority later"], 404)
            tally.expect("who may read its key", oct(os.stat(house.book + ".authority/key.pem").st_mode & 0o777), "0o600")
            house.close()
            moved = subprocess.run([*inside, program, "serve", "--book", house.book, "--lan", "192.168.77.1", "--plain"], capture_output=True, text=True, timeout=30, env=house.environment)
            tally.holds("another way while a device is paired by this one is refused",
                        moved.returncode == 1 and "by which \"phone\" was paired" in moved.stderr)
    finally:
        house.end()


shutil.rmtree(folder, ignore_errors=True)
os.makedirs(folder)
on_this_machine()
namespace("netns", "add", NAMESPACE)
try:
    namespace("-n", NAMESPACE, "link", "set", "lo", "up")
    namespace("-n", NAMESPACE, "addr", "add", "192.168.77.1/32", "dev", "lo")
    in_a_home_network("http")
    in_a_home_network("https")
finally:
    subprocess.run(["ip", "netns", "del", NAMESPACE], capture_output=True)
tally.end()
