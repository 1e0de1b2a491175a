"""The marks: each state of the record as a shape, a tone and its word, and the sprite that holds the shapes."""

from html import escape

OUTLINE = "M5 1.2h6L14.8 5v6L11 14.8H5L1.2 11V5z"
CELL = '<path d="M2 2h12v12H2z" stroke-width="1.6"/>'
HALLMARK = f'<path d="{OUTLINE}" stroke-width="1.7"/>'
DIAL = '<circle cx="8" cy="8" r="6.4" stroke-width="1.7"/>'
POSTS = '<path d="M2 2v12M14 2v12" stroke-width="1.8"/>'
TRIANGLE = (
    '<path d="M8 1.8 15 14H1z" stroke-width="1.7"/><path d="M8 6v4.2" stroke-width="1.8"/>'
    '<circle cx="8" cy="12" r="1.05" fill="currentColor" stroke="none"/>'
)
BEYOND = (
    '<path d="M3 1.5v13" stroke-width="1.8"/>'
    '<path d="m7.2 4.4 7.2 7.2m0-7.2-7.2 7.2" stroke-width="2.6"/>'
)

SYMBOLS: dict[str, str] = {
    # verdicts: two limits and what stands between them
    "v-met": f'{POSTS}<circle cx="8" cy="8" r="3.6" fill="currentColor" stroke="none"/>',
    "v-notmet": BEYOND,
    "v-none": f'{POSTS}<circle cx="8" cy="8" r="3" stroke-width="1.4"/>',
    "v-noeval": (
        '<path d="M2 2.2v2.4M2 6.8v2.4M2 11.4v2.4M14 2.2v2.4M14 6.8v2.4M14 11.4v2.4" stroke-width="1.8"/>'
        '<path d="M5 8h6" stroke-width="2.4"/>'
    ),
    # work: a dial
    "d-due": f'{DIAL}<path d="M8 8V3.6" stroke-width="1.7"/>',
    "d-run": f'{DIAL}<path d="M8 8V3.4A4.6 4.6 0 1 1 4 10.3z" fill="currentColor" stroke="none"/>',
    "d-full": f'{DIAL}<circle cx="8" cy="8" r="4" fill="currentColor" stroke="none"/>',
    # the hallmark's outline: something a person decides or signs
    "h-dash": f'<path d="{OUTLINE}" stroke-width="1.6" stroke-dasharray="2.6 2.1"/>',
    "h-open": HALLMARK,
    "h-struck": (
        '<path fill="currentColor" stroke="none" fill-rule="evenodd" d="M4.7.5h6.6l4.2 4.2v6.6l-4.2 4.2H4.7L.5 11.3V4.7z'
        'M7 2.6v2H3.9l2.9 3.6L8 12.4l1.2-4.2 2.9-3.6H9v-2zM3.4 12.6v1.1h9.2v-1.1z"/>'
    ),
    "h-half": (
        f'{HALLMARK}<path d="M1.6 5.2 11 14.4H5L1.6 11z" fill="currentColor" stroke="none"/>'
    ),
    "h-hold": f'{HALLMARK}<path d="M6 5v6M10 5v6" stroke-width="2"/>',
    "h-rework": (
        f'{HALLMARK}<path d="M10.6 10.6H6.4a2 2 0 0 1 0-4h3.2M8 4.4l2.2 2.2L8 8.8" stroke-width="1.5"/>'
    ),
    "h-regrade": f'{HALLMARK}<path d="M4.6 10.6h3.4V5.4h3.4" stroke-width="1.7"/>',
    "h-cross": f'{HALLMARK}<path d="m5.2 5.2 5.6 5.6m0-5.6-5.6 5.6" stroke-width="2"/>',
    "h-line": f'{HALLMARK}<path d="M4 8h8" stroke-width="2"/>',
    # instruments: the dial again, with its needle
    "i-in": (
        f'{DIAL}<path d="M8 9.2 11 4.4" stroke-width="1.7"/>'
        '<circle cx="8" cy="9.2" r="1.8" fill="currentColor" stroke="none"/>'
    ),
    "i-over": TRIANGLE,
    "i-out": (
        '<path fill="currentColor" stroke="none" fill-rule="evenodd" d="M8 1a7 7 0 1 1 0 14A7 7 0 0 1 8 1zM4.2 6.8v2.4h7.6V6.8z"/>'
    ),
    "i-ret": (
        '<circle cx="8" cy="8" r="6.4" stroke-width="1.6"/><path d="M3.6 12.4 12.4 3.6" stroke-width="1.6"/>'
    ),
    # determinations
    "s-acc": (
        '<path d="M8 2v12" stroke-width="1.4"/><circle cx="8" cy="8" r="3.6" fill="currentColor" stroke="none"/>'
    ),
    "s-aside": (
        '<circle cx="8" cy="8" r="3.6" stroke-width="1.5"/><path d="M2.6 13.4 13.4 2.6" stroke-width="1.5"/>'
    ),
    # cells of a sheet, and files of them
    "c-full": f'{CELL}<path d="M5 5h6v6H5z" fill="currentColor" stroke="none"/>',
    "c-turned": f'{CELL}<path d="M4.4 8h6.4M8.2 5.2 11 8l-2.8 2.8" stroke-width="1.7"/>',
    "c-asks": (
        f'{CELL}<path d="M6 6.4a2 2 0 1 1 2.7 1.8c-.5.2-.7.5-.7 1.1" stroke-width="1.6"/>'
        '<circle cx="8" cy="11.4" r="1" fill="currentColor" stroke="none"/>'
    ),
    "c-cross": f'{CELL}<path d="m5 5 6 6m0-6-6 6" stroke-width="2"/>',
    "c-struck": f'{CELL}<path d="M3.4 12.6 12.6 3.4" stroke-width="1.6"/>',
    "c-dash": '<path d="M2 2h12v12H2z" stroke-width="1.6" stroke-dasharray="2.4 2.4"/>',
    "c-none": CELL,
    # what a box says about its keeping
    "k-saved": '<path d="m2.6 8.6 3.6 3.6 7.2-8" stroke-width="1.9"/>',
    "k-saving": '<circle cx="8" cy="8" r="5.6" stroke-width="1.7" stroke-dasharray="1.6 2.2"/>',
    "k-not": TRIANGLE,
    # notices, sorting, keys
    "n-info": (
        '<circle cx="8" cy="8" r="6.6" stroke-width="1.6"/><path d="M8 7.2v4" stroke-width="1.8"/>'
        '<circle cx="8" cy="4.8" r="1.05" fill="currentColor" stroke="none"/>'
    ),
    "n-stop": BEYOND,
    "a-sort": '<path d="M8 2 4.5 6.4h7zM8 14l3.5-4.4h-7z" fill="currentColor" stroke="none"/>',
    "a-up": '<path d="M8 2 3.6 7.4h8.8z" fill="currentColor" stroke="none"/>',
    "a-down": '<path d="m8 14 4.4-5.4H3.6z" fill="currentColor" stroke="none"/>',
    "a-back": '<path d="M6 3h8.5v10H6L1.5 8zM8 6l4 4m0-4-4 4" stroke-width="1.4"/>',
}

# word: (symbol, tone). One shape means one thing: struck = signed and standing,
# broken = not made yet, one bar = replaced, cross = ended.
STATES: dict[str, tuple[str, str]] = {
    "met": ("v-met", "good"),
    "not met": ("v-notmet", "bad"),
    "not tested": ("v-none", "quiet"),
    "not evaluated": ("v-noeval", "quiet"),
    "due": ("d-due", "plain"),
    "running": ("d-run", "run"),
    "reported": ("d-full", "plain"),
    "authorised": ("h-struck", "good"),
    "accepted": ("s-acc", "plain"),
    "set aside": ("s-aside", "quiet"),
    "on test": ("h-dash", "run"),
    "awaiting decision": ("h-open", "care"),
    "released": ("h-struck", "good"),
    "on hold": ("h-hold", "care"),
    "released under concession": ("h-half", "care"),
    "for rework": ("h-rework", "care"),
    "regraded": ("h-regrade", "plain"),
    "scrapped": ("h-cross", "bad"),
    "draft": ("h-dash", "quiet"),
    "in force": ("h-struck", "good"),
    "superseded": ("h-line", "quiet"),
    "in service": ("i-in", "good"),
    "overdue": ("i-over", "care"),
    "out of service": ("i-out", "bad"),
    "retired": ("i-ret", "quiet"),
    "current": ("h-struck", "good"),
    "genuine and current": ("h-struck", "good"),
    "withdrawn": ("h-cross", "bad"),
    "not known": ("v-none", "plain"),
    "received": ("c-dash", "care"),
    "taken in": ("c-full", "plain"),
    "left": ("c-struck", "quiet"),
    "taken": ("c-full", "plain"),
    "converted": ("c-turned", "plain"),
    "needs an answer": ("c-asks", "care"),
    "refused": ("c-cross", "bad"),
    "left out": ("c-struck", "quiet"),
    "empty": ("c-none", "quiet"),
    "saved": ("k-saved", "quiet"),
    "saving": ("k-saving", "quiet"),
    "not saved": ("k-not", "care"),
}

# What a notice shows before its sentence, by its tone.
NOTICES: dict[str, str] = {
    "plain": "n-info",
    "run": "d-run",
    "care": "i-over",
    "good": "k-saved",
    "bad": "n-stop",
}

LOGO_PATH = (
    "M9 1h14l8 8v14l-8 8H9l-8-8V9zM14.5 4.5v4H8l5.6 7.2L16 23.6l2.4-7.9L24 8.5h-6.5v-4z"
    "M5 24v1.3h1.9v2.2h1.2v-2.2h3.3v1.3h1v-1.3h3v2.2h1.2v-2.2h3v1.3h1v-1.3h3.3v2.2h1.2v-2.2H27V24z"
)


def icon(symbol: str) -> str:
    """One shape of the sprite; it stands beside its word, so it is hidden from readers."""
    if symbol not in SYMBOLS:
        raise LookupError(f"There is no shape called {symbol!r}.")
    return f'<svg aria-hidden="true"><use href="#{symbol}"/></svg>'


def mark(word: str, text: str = "", *, big: bool = False, soft: bool = False) -> str:
    """A verdict or a state: shape, word, tone. ``text`` may say the word longer."""
    if word not in STATES:
        raise LookupError(f"There is no mark for {word!r}.")
    symbol, tone = STATES[word]
    classes = ["mark", tone, *(["big"] if big else []), *(["soft"] if soft else [])]
    return (
        f'<span class="{" ".join(classes)}">{icon(symbol)}{escape(text or word)}</span>'
    )


def logo() -> str:
    """The mark of the house: a cone resting on a ruler, struck as a hallmark."""
    return (
        '<svg viewBox="0 0 32 32" aria-hidden="true">'
        f'<path fill="currentColor" fill-rule="evenodd" d="{LOGO_PATH}"/></svg>'
    )


def sprite() -> str:
    """Every shape once, at the head of a page."""
    shapes = "".join(
        f'<symbol id="{name}" viewBox="0 0 16 16"><g fill="none" stroke="currentColor">{drawn}</g></symbol>'
        for name, drawn in SYMBOLS.items()
    )
    return f'<svg class="unseen" width="0" height="0" aria-hidden="true">{shapes}</svg>'
