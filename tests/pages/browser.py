"""A headless Chromium, driven over the WebDriver protocol (W3C) by nothing but the standard library."""

import base64
import contextlib
import json
import os
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.error
import urllib.request
from pathlib import Path
from types import TracebackType
from typing import Any

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
DRIVER = shutil.which("chromedriver")
MISSING = ", ".join(
    name for name, found in (("chromium", CHROMIUM), ("chromedriver (chromium-driver)", DRIVER)) if not found
)
"""What is not installed of that which the browser needs; empty where nothing is missing."""

_OPTIONS = (
    *("--headless", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync", "--hide-scrollbars", "--force-device-scale-factor=1"),
)
_ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
_STARTED = 20.0
_PATIENCE = 15.0
"""Seconds for the start of the driver, and for what a page is to become."""


class BrowserError(Exception):
    """The browser could not do what it was told."""


class Browser:
    """One window. Its profile is new and empty, and removed at the end."""

    def __init__(self) -> None:
        """Start the driver and a window."""
        assert CHROMIUM
        assert DRIVER
        self._folder = Path(tempfile.mkdtemp(prefix="kitproof-browser-"))
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self._port = probe.getsockname()[1]
        self._driver = subprocess.Popen(
            [DRIVER, f"--port={self._port}", "--log-level=SEVERE"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self._session = ""
        try:
            self._wait()
            # Root has no sandbox to drop into.
            root = ("--no-sandbox",) if os.getuid() == 0 else ()
            options = {"binary": CHROMIUM, "args": [*_OPTIONS, *root, f"--user-data-dir={self._folder}"]}
            wanted = {"browserName": "chrome", "goog:chromeOptions": options}
            made = self._ask("POST", "/session", {"capabilities": {"alwaysMatch": wanted}})
            self._session = f"/session/{made['sessionId']}"
            # A window that nobody sees is not the one that keys go to, unless it is told so.
            self.command("Emulation.setFocusEmulationEnabled", {"enabled": True})
        except BaseException:
            self.close()
            raise

    def __enter__(self) -> "Browser":
        """Return the window."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the window."""
        self.close()

    def close(self) -> None:
        """End the window and the driver, and forget the profile."""
        if self._session:
            with contextlib.suppress(BrowserError, OSError):
                self._ask("DELETE", self._session)
        self._driver.terminate()
        self._driver.wait(timeout=20)
        shutil.rmtree(self._folder, ignore_errors=True)

    def _wait(self) -> None:
        end = time.monotonic() + _STARTED
        while True:
            with contextlib.suppress(OSError, BrowserError):
                if self._ask("GET", "/status")["ready"]:
                    return
            if time.monotonic() > end:
                raise BrowserError("chromedriver did not start")
            time.sleep(0.05)

    def _ask(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(
            f"http://127.0.0.1:{self._port}{path}", data, {"Content-Type": "application/json"}, method=method
        )
        try:
            with urllib.request.urlopen(request, timeout=60) as reply:  # noqa: S310
                return json.load(reply)["value"]
        except urllib.error.HTTPError as error:
            raise BrowserError(f"{path}: {error.read().decode()[:500]}") from None

    # --- what a person does ------------------------------------------------------------------------------------------

    def open(self, address: str) -> None:
        """Go to an address."""
        self._ask("POST", f"{self._session}/url", {"url": address})

    @property
    def address(self) -> str:
        """Where the window is."""
        return str(self._ask("GET", f"{self._session}/url"))

    def resize(self, width: int, height: int = 900) -> None:
        """Make the page so wide and so high, scroll bars and frame not counted."""
        metrics = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        self.command("Emulation.setDeviceMetricsOverride", metrics)
        self._until(f"return innerWidth == {width}")

    def on(self, medium: str) -> None:
        """Show pages as on a screen, or as in print."""
        self.command("Emulation.setEmulatedMedia", {"media": medium})
        self._until(f"return matchMedia('{medium}').matches")

    def command(self, name: str, parameters: dict[str, Any]) -> Any:
        """Carry out a command of Chromium's own protocol."""
        return self._ask("POST", f"{self._session}/goog/cdp/execute", {"cmd": name, "params": parameters})

    def run(self, script: str, *arguments: object) -> Any:
        """Run a script in the page, past its security policy, and return what it returns."""
        return self._ask("POST", f"{self._session}/execute/sync", {"script": script, "args": list(arguments)})

    def run_later(self, script: str, *arguments: object) -> Any:
        """Run a script that ends by calling its last argument, and return what it calls that with."""
        return self._ask("POST", f"{self._session}/execute/async", {"script": script, "args": list(arguments)})

    def find(self, selector: str) -> str:
        """Return the first element of a CSS selector."""
        found = self._ask("POST", f"{self._session}/element", {"using": "css selector", "value": selector})
        return str(found[_ELEMENT])

    def click(self, selector: str) -> None:
        """Click an element."""
        self._ask("POST", f"{self._session}/element/{self.find(selector)}/click", {})

    def submit(self, selector: str) -> None:
        """Click what sends a form, and wait for the page that answers."""
        self.run("document.documentElement.dataset.before = ''")
        self.click(selector)
        self._until("return !('before' in document.documentElement.dataset) && document.readyState == 'complete'")

    def wait_for(self, selector: str) -> None:
        """Wait until the page has an element."""
        self._until(f"return document.querySelector({json.dumps(selector)}) !== null")

    def _until(self, script: str) -> None:
        end = time.monotonic() + _PATIENCE
        while time.monotonic() < end:
            with contextlib.suppress(BrowserError):  # between two pages there is none to ask
                if self.run(script):
                    return
            time.sleep(0.02)
        raise BrowserError(f"this did not come true: {script}")

    def type(self, selector: str, text: str) -> None:
        """Type into an element; into a file field, the path of the file."""
        self._ask("POST", f"{self._session}/element/{self.find(selector)}/value", {"text": text})

    def press(self, *keys: str) -> None:
        """Press keys one after the other, as soon as the page is what they go to."""
        self._until("return document.hasFocus() && document.readyState == 'complete'")
        actions = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        body = {"actions": [{"type": "key", "id": "keyboard", "actions": actions}]}
        self._ask("POST", f"{self._session}/actions", body)

    def text(self, selector: str = "body") -> str:
        """Return what can be read of an element."""
        return str(self._ask("GET", f"{self._session}/element/{self.find(selector)}/text"))

    def picture(self, path: Path) -> None:
        """Save the whole page as PNG."""
        width, height = self.run("return [innerWidth, document.documentElement.scrollHeight]")
        clip = {"x": 0, "y": 0, "width": width, "height": min(height, 12000), "scale": 1}
        shot = self.command("Page.captureScreenshot", {"format": "png", "captureBeyondViewport": True, "clip": clip})
        path.write_bytes(base64.b64decode(shot["data"]))

    def printed(self, path: Path) -> None:
        """Save the page as PDF, as it is printed on A4."""
        paper = {"paperWidth": 8.27, "paperHeight": 11.69, "printBackground": True, "preferCSSPageSize": True}
        path.write_bytes(base64.b64decode(self.command("Page.printToPDF", paper)["data"]))
