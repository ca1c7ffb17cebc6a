"""What the tests of the page share: a house (the program, serving a fresh book), a phone (headless Chromium) that is
paired with it, and the counting of taps, keys, bytes and requests.

Each test runs in a network and process namespace of its own, so that 192.168.77.1 stands for the house in the shop's
network (loopback would be a secure context, which a phone's address is not), nothing reaches any other host, and the
kernel ends whatever is left when the test ends. That needs the right to make namespaces (root); without it a test
fails and says so.

    import harness
    given = harness.begin(__doc__)          # in the namespace from here on
    house = harness.House(given.program, harness.book_of(given.program, folder, "five-cars"))
    phone = harness.Phone(house)
    ...
    harness.end()                           # status 1 and a line for each promise that was broken
"""
import argparse
import atexit
import contextlib
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

from selenium import webdriver
from selenium.common.exceptions import NoSuchElementException, StaleElementReferenceException, WebDriverException
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

LAN = "192.168.77.1"
SAMPLES = os.path.join(os.path.dirname(__file__), "..", "..", "..", "sample-jobs")
PHONE = (360, 740)
TABLE = (1280, 800)

broken = []
checked = 0
folder = None


def expect(true, words):
    global checked
    checked += 1
    if not true:
        broken.append(words)
        print("broken: " + words, flush=True)
    return bool(true)


def equal(found, wanted, words):
    return expect(found == wanted, f"{words}: found {found!r}, expected {wanted!r}")


def differences(found, wanted, at=""):
    """Where two JSON values differ, a line for each place."""
    if isinstance(found, dict) and isinstance(wanted, dict):
        return [each for key in sorted({*found, *wanted})
                for each in differences(found.get(key, "absent"), wanted.get(key, "absent"), f"{at}.{key}")]
    if isinstance(found, list) and isinstance(wanted, list) and len(found) == len(wanted):
        return [each for n, pair in enumerate(zip(found, wanted)) for each in differences(*pair, f"{at}[{n}]")]
    return [] if found == wanted else [f"{at}: {found!r}, expected {wanted!r}"]


def end():
    name = os.path.basename(sys.argv[0])
    print(f"{name}: {checked} checked, {len(broken)} broken")
    sys.exit(1 if broken or not checked else 0)


def begin(about, *more):
    """Reads the arguments, and goes on inside namespaces of its own."""
    read = argparse.ArgumentParser(description=about.splitlines()[0])
    read.add_argument("program")
    read.add_argument("--axe", default=os.environ.get("NONRUNNER_AXE", ""), help="axe.min.js of axe-core")
    read.add_argument("--pictures", default="", help="a folder into which each page is drawn as PNG")
    for name, kind, value, words in more:
        read.add_argument(name, type=kind, default=value, help=words)
    given = read.parse_args()
    given.program = os.path.abspath(given.program)
    if os.environ.get("NONRUNNER_APART") != "yes":
        for tool in ("unshare", "ip"):
            if not shutil.which(tool):
                sys.exit(f"{sys.argv[0]}: {tool} was not found; install util-linux and iproute2")
        apart = ["unshare", "--net", "--pid", "--fork", "--kill-child", "--mount-proc"]
        if subprocess.run([*apart, "true"], capture_output=True).returncode != 0:
            apart[1:1] = ["--user", "--map-root-user"]
        if subprocess.run([*apart, "true"], capture_output=True).returncode != 0:
            sys.exit(f"{sys.argv[0]}: the right to make a network namespace was not found, root was expected; "
                     "a phone's address cannot be tried without it")
        os.environ["NONRUNNER_APART"] = "yes"
        os.execvp("unshare", [*apart, sys.executable, *sys.argv])
    for words in (["link", "set", "lo", "up"], ["addr", "add", LAN + "/24", "dev", "lo"]):
        subprocess.run(["ip", *words], check=True)
    global folder
    kept = tempfile.TemporaryDirectory(prefix="nonrunner-page-", ignore_cleanup_errors=True)
    folder = kept.name
    atexit.register(kept.cleanup)
    atexit.register(leave_nothing)
    os.environ["XDG_STATE_HOME"] = os.path.join(folder, "state")
    os.environ["HOME"] = folder
    os.environ.pop("NONRUNNER_BOOK", None)
    return given


def trust(certificate):
    """The authority of a house goes into the store of every browser that is opened from here on."""
    store = os.path.join(folder, ".pki", "nssdb")
    if not shutil.which("certutil"):
        raise SystemExit(f"{sys.argv[0]}: certutil was not found; install libnss3-tools")
    os.makedirs(store, exist_ok=True)
    for words in (["-N", "--empty-password"], ["-A", "-t", "C,,", "-n", "the shop", "-i", certificate]):
        subprocess.run(["certutil", "-d", "sql:" + store, *words], check=True)


running = []  # houses and phones


def leave_nothing():
    """Whatever a test that broke off left running is ended, so that its folder can go."""
    for each in running:
        with contextlib.suppress(Exception):
            each.kill()


def run(program, *words, book=None, status=0, text=None):
    """A command of the program; its standard output."""
    said = [program, *map(str, words)] + (["--book", book] if book else [])
    done = subprocess.run(said, capture_output=True, text=True, input=text if text is not None else "")
    if done.returncode != status:
        raise SystemExit(f"{' '.join(said)}: status {done.returncode}, expected {status}: {done.stderr.strip()}")
    return done.stdout


def figures(program, book, *words):
    return json.loads(run(program, *words, "--json", book=book))


class House:
    """`serve` on a book. Stopped, killed, silenced and begun again at the same port."""

    def __init__(self, program, book, *options, address="127.0.0.1"):
        self.program, self.book, self.options, self.address = program, book, options, address
        with socket.socket() as free:
            free.bind((address, 0))
            self.port = free.getsockname()[1]
        self.process, self.code = None, None
        running.append(self)
        self.start()

    @property
    def at(self):
        return f"{'https' if '--authority' in self.options else 'http'}://{self.address}:{self.port}"

    def start(self):
        self.said = open(os.path.join(folder, f"serve-{self.port}.out"), "w+")
        self.process = subprocess.Popen(
            [self.program, "serve", "--port", str(self.port), *self.options, "--book", self.book],
            stdout=self.said, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL, start_new_session=True)
        until = time.time() + 20
        while time.time() < until:
            with contextlib.suppress(OSError), socket.create_connection((self.address, self.port), 1):
                break
            if self.process.poll() is not None:
                raise SystemExit("serve ended: " + self.printed())
            time.sleep(0.02)
        else:
            raise SystemExit("serve did not listen within 20 s: " + self.printed())
        self.code = self.pairing_code()

    def printed(self):
        self.said.flush()
        with open(self.said.name) as said:
            return said.read()

    def pairing_code(self):
        until = time.time() + 5
        while time.time() < until:
            found = re.search(r"/pair#([0-9a-f]{16,})", self.printed())
            if found:
                return found[1]
            time.sleep(0.02)
        raise SystemExit("serve printed no pairing address: " + self.printed())

    def fresh_code(self):
        """One more device: the code of the first is spent."""
        said = run(self.program, "serve", "--pair", book=self.book)
        self.code = re.search(r"/pair#([0-9a-f]{16,})", said)[1]

    def stop(self, how=signal.SIGTERM):
        if self.process and self.process.poll() is None:
            self.process.send_signal(how)
            self.process.wait(20)
        return self.process.returncode

    def kill(self):
        self.stop(signal.SIGKILL)

    def silent(self):
        self.process.send_signal(signal.SIGSTOP)

    def wake(self):
        self.process.send_signal(signal.SIGCONT)


class Phone:
    """A browser with one window, of a phone's size or a laptop's. `taps` and `keys` count what a hand would do."""

    def __init__(self, house, size=PHONE, dark=False, paired=True, profile=None, letters=16):
        self.letters = letters  # the size that the browser is set to, in px
        self.house, self.taps, self.keys, self.hosts, self.sent = house, 0, 0, set(), []
        self.profile = profile or tempfile.mkdtemp(prefix="phone-", dir=folder)
        self.size, self.dark = size, dark
        running.insert(0, self)
        self.open_browser()
        if paired:
            self.pair()

    def open_browser(self):
        options = webdriver.ChromeOptions()
        options.binary_location = shutil.which("chromium") or "/usr/bin/chromium"
        for word in ("--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-dev-shm-usage",
                     "--disable-background-networking", "--disable-component-update", "--disable-sync",
                     "--disable-default-apps", "--disable-extensions", "--mute-audio",
                     "--window-size=%d,%d" % self.size, "--user-data-dir=" + self.profile):
            options.add_argument(word)
        if self.letters != 16:
            options.add_experimental_option("prefs", {"webkit.webprefs.default_font_size": self.letters})
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        options.set_capability("unhandledPromptBehavior", "ignore")
        self.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        self.driver.set_page_load_timeout(40)
        self.look(self.size, self.dark)

    def look(self, size, dark=False):
        self.size, self.dark = size, dark
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
            "width": size[0], "height": size[1], "deviceScaleFactor": 1, "mobile": size[0] < 600})
        self.driver.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": size[0] < 600})
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [
            {"name": "prefers-color-scheme", "value": "dark" if dark else "light"},
            {"name": "prefers-reduced-motion", "value": "reduce"}]})

    def pair(self, name="kitchen phone", whose="me"):
        """With the code that the house printed, by the page that asks who this is."""
        self.driver.get(f"{self.house.at}/pair#{self.house.code}")
        self.wait(lambda: self.all("form"), "the pairing page has a form")
        for field, value in (("device", name), ("person", whose)):
            for each in self.all(f"[name={field}]"):
                each.clear()
                each.send_keys(value)
        self.all("form button")[-1].click()
        self.wait(lambda: "/pair" not in self.driver.current_url, "paired: another page follows")
        self.ready()
        # A hand is not as quick: the store of the browser is made before the page is left.
        self.wait(lambda: self.held() >= 0, "the browser keeps a store")

    def close(self):
        with contextlib.suppress(WebDriverException):
            self.driver.quit()

    def kill(self):
        """The browser at once, as when a phone throws it away; its profile stays."""
        pid = self.driver.service.process.pid
        for child in children_of(pid):
            with contextlib.suppress(ProcessLookupError):
                os.kill(child, signal.SIGKILL)
        self.close()

    def open(self, path):
        self.driver.get(path if path.startswith("http") else self.house.at + path)
        self.ready()

    def ready(self):
        self.wait(lambda: self.driver.execute_script("return document.readyState") == "complete", "the page is there")

    def wait(self, true, words, seconds=20):
        until = time.time() + seconds
        while time.time() < until:
            with contextlib.suppress(StaleElementReferenceException, NoSuchElementException):
                found = true()
                if found:
                    return found
            time.sleep(0.03)
        page = ""
        with contextlib.suppress(WebDriverException):
            page = f"{self.driver.current_url}: {self.text()[:1500]}"
        raise SystemExit(f"{sys.argv[0]}: waited {seconds} s in vain: {words}\n{page}")

    def all(self, css):
        return self.driver.find_elements(By.CSS_SELECTOR, css)

    def one(self, css):
        return self.wait(lambda: next((each for each in self.all(css) if each.is_displayed()), None), css)

    def text(self, css="body"):
        return "\n".join(each.text for each in self.all(css))

    def button(self, words, within=""):
        """The first thing shown that can be tapped and reads so."""
        def found():
            for css in ("button", "a", "summary", "label"):
                for each in self.all(within + " " + css):
                    if each.is_displayed() and each.text.strip().startswith(words):
                        return each
            return None
        return self.wait(found, f"something to tap that reads '{words}'")

    def tap(self, what, within=""):
        """One tap: on an element, or on what reads so."""
        self.taps += 1
        element = self.button(what, within) if isinstance(what, str) else what
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", element)
        element.click()

    def go(self, what, within=""):
        """A tap after which another page is there."""
        was = self.all("html")[0]
        self.tap(what, within)
        self.left(was)

    def left(self, was):
        def gone():
            try:
                was.tag_name
                return False
            except (StaleElementReferenceException, WebDriverException):
                return True
        self.wait(gone, "another page follows")
        self.ready()

    def type(self, field, words, clear=False):
        """Keys into a field by its name, or into what has the focus (field None)."""
        element = self.driver.switch_to.active_element if field is None else \
            field if not isinstance(field, str) else self.one(f"[name='{field}']")
        if clear:
            element.clear()
        self.keys += len(words)
        element.send_keys(words)

    def choose(self, field, words):
        """Of a list: one tap opens it, one takes the line that reads so."""
        self.taps += 2
        element = self.one(f"select[name='{field}']")
        for option in element.find_elements(By.TAG_NAME, "option"):
            if option.text.startswith(words) or option.get_attribute("value") == words:
                self.driver.execute_script(
                    "arguments[0].value = arguments[1]; for (const it of ['input', 'change']) "
                    "arguments[0].dispatchEvent(new Event(it, {bubbles: true}))", element, option.get_attribute("value"))
                return
        raise SystemExit(f"{field}: '{words}' was not found among {[o.text for o in element.find_elements(By.TAG_NAME, 'option')]}")

    def held(self):
        """What is on this device only, as its script counts it; -1 while it cannot be asked."""
        with contextlib.suppress(WebDriverException):
            return self.driver.execute_async_script(
                "const done = arguments[0]; heldEntries().then((all) => done(all.length), () => done(-1))")
        return -1

    def console(self):
        """What the browser complained of since the last time; a policy that was broken stands there too."""
        return [line["message"] for line in self.driver.get_log("browser") if line["level"] in ("SEVERE", "WARNING")]

    def traffic(self):
        """The requests since the last time: [(address, bytes as they were sent, head and all, status)]."""
        bodies, answers = {}, {}
        for line in self.driver.get_log("performance"):
            said = json.loads(line["message"])["message"]
            about = said["params"]
            if said["method"] == "Network.responseReceived":
                answers[about["requestId"]] = (about["response"]["url"], about["response"]["status"])
            elif said["method"] == "Network.requestWillBeSent":
                answers.setdefault(about["requestId"], (about["request"]["url"], 0))
            elif said["method"] == "Network.loadingFinished":
                bodies[about["requestId"]] = about["encodedDataLength"]
        asked = [(url, bodies.get(key, 0), status) for key, (url, status) in answers.items()
                 if not url.startswith(("data:", "blob:", "chrome"))]
        for url, _, _ in asked:
            self.hosts.add(re.sub(r"^\w+://([^/]+).*", r"\1", url))
        return asked

    def picture(self, path):
        self.driver.save_screenshot(path)


def children_of(pid):
    found = []
    for name in os.listdir("/proc"):
        if name.isdigit():
            with contextlib.suppress(OSError), open(f"/proc/{name}/stat") as stat:
                if int(stat.read().rsplit(")", 1)[1].split()[1]) == pid:
                    found += [int(name), *children_of(int(name))]
    return found


def samples(change=lambda text: text):
    """A copy of the sample jobs in which `change` was made to each file; its folder."""
    at = tempfile.mkdtemp(prefix="samples-", dir=folder)
    for sample in ("sprat", "drayman", "five-cars"):
        os.mkdir(os.path.join(at, sample))
        for name in os.listdir(os.path.join(SAMPLES, sample)):
            with open(os.path.join(SAMPLES, sample, name), encoding="utf-8") as file:
                text = change(file.read())
            with open(os.path.join(at, sample, name), "w", encoding="utf-8") as file:
                file.write(text)
    return at


def until(path, event):
    """The events of a file up to the first of that kind, in a file beside it: so that the car is still here."""
    with open(path, encoding="utf-8") as file:
        kept = file.read().partition(f'  {{ do = "{event}"')[0]
    cut = path.replace("events.toml", f"until-{event.replace(' ', '-')}.toml")
    with open(cut, "w", encoding="utf-8") as file:
        file.write(kept + "]\n")
    return cut


def new_book(program, name="shop.book"):
    book = os.path.join(folder, name)
    run(program, "start", book, "--currency", "USD", "--distance", "mi")
    return book


def book_of(program, name="shop.book", at=None, what=lambda words: words):
    """A book in which every room has something to show: a car sold, one finished, one advertised, five looked at, one
    just bought, a quick line, a running clock. `what` changes each name that is typed here."""
    at = at or samples()
    book = new_book(program, name)
    run(program, "post", os.path.join(at, "drayman", "events.toml"), book=book)
    run(program, "post", until(os.path.join(at, "sprat", "events.toml"), "buyer deposit"), book=book)
    for job in sorted(os.listdir(os.path.join(at, "five-cars"))):
        run(program, "appraise", os.path.join(at, "five-cars", job), "--keep", book=book)
    run(program, "owner", "in", "5000", "--purse", "cash", book=book)
    run(program, "buy", "pip", "400", "--purse", "cash", book=book)
    run(program, "receipt", "pip", "12.50", what("hose"), "--purse", "cash", book=book)
    return book
