"""The house as a visitor of the network meets it: begun on a fresh book at a free port, asked byte by byte where that is what
matters, ended by SIGTERM. Nothing here knows more of HTTP than what it sends."""
import contextlib
import http.client
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time

FORM = "application/x-www-form-urlencoded"
JPEG = b"\xff\xd8\xff\xe0\0\x10JFIF\0"


def fail(what):
    print(f"{os.path.basename(sys.argv[0])}: {what}")
    sys.exit(1)


class Tally:
    """What was looked at; what does not hold is told at once, and again by the status at the end."""

    def __init__(self):
        self.looked, self.wrong = 0, 0

    def expect(self, what, found, expected):
        self.looked += 1
        if found != expected:
            self.wrong += 1
            print(f"NOT SO: {what}: found {found!r}, expected {expected!r}")

    def holds(self, what, so):
        self.expect(what, bool(so), True)

    def end(self, last=""):
        print(f"{self.looked} looked at, {self.wrong} not so{last}")
        sys.exit(1 if self.wrong else 0)


class House:
    def __init__(self, program, folder, *options, address="127.0.0.1", port="0", into=()):
        shutil.rmtree(folder, ignore_errors=True)
        os.makedirs(folder)
        self.program, self.folder, self.book = program, folder, os.path.join(folder, "shop.book")
        self.options, self.into, self.address = options, list(into), address
        self.environment = {**os.environ, "XDG_STATE_HOME": os.path.join(folder, "state")}
        self.run("start", self.book)
        self.run("owner", "in", "5000", "--purse", "cash", "--book", self.book)
        self.run("buy", "pip", "900", "--purse", "cash", "--book", self.book)
        self.cookie, self.asked = None, 0
        self.open(port)

    def run(self, *words):
        done = subprocess.run([self.program, *words], capture_output=True, text=True, env=self.environment, timeout=60)
        if done.returncode != 0:
            fail(f"{' '.join(words)}: status {done.returncode}: {done.stderr.strip()}")
        return done.stdout

    def open(self, port="0"):
        self.process = subprocess.Popen([*self.into, self.program, "serve", "--book", self.book, "--port", str(port), *self.options],
                                        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=self.environment)
        self.said = ""
        for line in self.process.stdout:
            self.said += line
            if line.startswith("Ctrl-C"):
                break
        else:
            fail(f"serve: {self.process.stderr.read().strip()}")
        self.port = int(re.search(r"http://127\.0\.0\.1:(\d+)/", self.said).group(1))
        self.host = f"{self.address}:{self.port}"
        self.origin = f"http://{self.host}"
        code = re.search(r"/pair#([0-9a-f]{16})$", self.said, re.M)
        self.code = code.group(1) if code else None

    def close(self, by=signal.SIGTERM):
        """Seconds that it took, and its status."""
        began = time.monotonic()
        self.process.send_signal(by)
        status = self.process.wait(30)
        return time.monotonic() - began, status

    def end(self):
        with contextlib.suppress(ProcessLookupError):
            self.process.kill()
        self.process.wait()

    def memory(self):
        """The most that it ever had, in KB."""
        with open(f"/proc/{self.process.pid}/status") as status:
            return int(re.search(r"VmHWM:\s+(\d+)", status.read()).group(1))

    # Asked as a browser asks: (status, headers as a dict in small letters, body).
    def ask(self, method, target, headers=None, body=None, host=None, cookie=True, origin=True, source=None):
        self.asked += 1
        wire = http.client.HTTPConnection(self.address, self.port, timeout=30, source_address=source and (source, 0))
        wire.putrequest(method, target, skip_host=True, skip_accept_encoding=True)
        given = {"Host": host or self.host}
        if origin and method not in ("GET", "HEAD"):
            given["Origin"] = self.origin
        if cookie and self.cookie:
            given["Cookie"] = self.cookie
        if body is not None:
            given["Content-Length"] = str(len(body))
            given["Content-Type"] = FORM
        given.update(headers or {})
        for name, values in given.items():
            for value in [values] if isinstance(values, str) else values or []:
                wire.putheader(name, value)
        wire.connect()
        wire.sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_CORK, 1)  # a small form leaves in one packet with its head
        try:
            wire.endheaders(body or None)
            wire.sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_CORK, 0)
        except (BrokenPipeError, ConnectionResetError):
            pass  # it was answered before all was sent
        answer = wire.getresponse()
        text = answer.read()
        wire.close()
        return answer.status, {name.lower(): value for name, value in answer.getheaders()}, text

    def status(self, *words, **more):
        return self.ask(*words, **more)[0]

    def pair(self, code=None, device="phone", **more):
        status, headers, text = self.ask("POST", "/pair", body=f"code={code or self.code}&device={device}".encode(), **more)
        if status == 303:
            self.cookie = headers["set-cookie"].split(";")[0]
        return status, headers, text

    # Asked byte by byte: the status, or "closed".
    def raw(self, data, half=False, patience=20, source="127.0.0.1"):
        with socket.create_connection((self.address, self.port), 5, source_address=(source, 0)) as wire:
            wire.settimeout(patience)
            with contextlib.suppress(BrokenPipeError, ConnectionResetError):
                wire.sendall(data)
                if half:
                    wire.shutdown(socket.SHUT_WR)
            return first_status(wire)

    def get(self, target="/pair"):
        return f"GET {target} HTTP/1.1\r\nHost: {self.host}\r\nConnection: close\r\n\r\n".encode()


def first_status(wire):
    seen = b""
    with contextlib.suppress(ConnectionResetError):
        while b"\r\n" not in seen:
            more = wire.recv(4096)
            if not more:
                break
            seen += more
    return int(seen.split(b" ")[1]) if seen.startswith(b"HTTP/1.1 ") else "closed"


def listening():
    """Every address and port of this network at which somebody listens, as /proc has it: the owner's process is not told
    apart there, so it is asked before and after."""
    found = set()
    for file in ("/proc/self/net/tcp", "/proc/self/net/tcp6"):
        with open(file) as table:
            for line in table.readlines()[1:]:
                words = line.split()
                if words[3] == "0A":
                    found.add(words[1])
    return found
