"""How the browser tests go to a page, sign a person in, and listen to what the browser has to say."""

from contextlib import contextmanager

from django.urls import reverse
from playwright.sync_api import Page, expect

from tests.factories.people import PASSWORD

PATIENCE = 15_000  # ms; a loaded machine is slow, not wrong
expect.set_options(timeout=PATIENCE)


class Seat:
    """One browser window at the laboratory's server."""

    def __init__(self, page: Page, server: str) -> None:
        self.page = page
        self.server = server
        self.said: list[str] = []
        page.set_default_timeout(PATIENCE)
        page.on("console", self._hear)
        page.on("pageerror", lambda error: self.said.append(f"error: {error}"))

    def _hear(self, message) -> None:
        if message.type in {"error", "warning"}:
            self.said.append(f"{message.type}: {message.text}")

    def goes(self, name, *args, query=""):
        """Open the page of a name, as typed into the address line."""
        return self.page.goto(self.server + reverse(name, args=args) + query)

    def signs_in(self, account):
        """Sign in with the keyboard alone, as at the start of a shift."""
        self.page.context.clear_cookies()
        self.goes("front:sign-in")
        self.page.get_by_label("Account").focus()
        self.types(account, "Tab", PASSWORD, "Enter")
        expect(self.page.locator(".who b")).to_be_visible()

    def types(self, *what):
        """Type texts and press named keys, into whatever has the focus."""
        for each in what:
            if each in {"Enter", "Tab", "Escape", "Space", "ArrowDown"}:
                self.page.keyboard.press(each)
            else:
                self.page.keyboard.type(each)

    @property
    def focused(self):
        return self.page.evaluate("document.activeElement?.id ?? ''")


class Bench(Seat):
    """The bench page of one sample."""

    def opens(self, sample):
        self.goes("bench:sample", sample)

    def box(self, code, key):
        return self.page.locator(f"#{code}-{key}")

    def kept(self, code, key):
        return self.page.locator(f"#{code}-{key}-kept")

    def outcome(self, code):
        return self.page.locator(f"#outcome-{code}")

    def verdict(self, code):
        """The mark of the verdict: shape and word."""
        return self.outcome(code).locator(".mark").first

    def saved(self, code, *keys):
        for key in keys:
            expect(self.kept(code, key)).to_contain_text("Saved")


@contextmanager
def no_request_leaves(page: Page):
    """Fail if the browser asks any server for anything inside the block."""
    asked: list[str] = []

    def hear(request):
        if request.url.startswith(("http:", "https:", "ws:")):
            asked.append(request.url)

    page.on("request", hear)
    yield
    page.wait_for_timeout(250)
    page.remove_listener("request", hear)
    assert asked == []
