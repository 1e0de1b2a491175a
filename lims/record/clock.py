"""The one clock. Everything asks it for the time; only the demo and the tests may set it."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

from django.conf import settings


class _Setting(NamedTuple):
    """Either standing still at an instant, or running on with an offset."""

    still_at: datetime | None = None
    offset: timedelta = timedelta(0)


_TRUE = _Setting()
_setting = _TRUE  # replaced whole, never changed, so that threads see one or the other


def now() -> datetime:
    """The present instant, in UTC."""
    setting = _setting
    if setting.still_at is not None:
        return setting.still_at
    return datetime.now(UTC) + setting.offset


def set_to(instant: datetime) -> None:
    """Stand still at `instant` until the clock is set again or reset."""
    _put(_Setting(still_at=_in_utc(instant)))


def start_from(instant: datetime) -> None:
    """Run on from `instant`, as if it were now."""
    _put(_Setting(offset=_in_utc(instant) - datetime.now(UTC)))


def reset() -> None:
    """Show the true time again."""
    _put(_TRUE)


@contextmanager
def frozen(instant: datetime) -> Iterator[None]:
    """Stand still at `instant` inside the block, then go on as before."""
    before = _setting
    set_to(instant)
    try:
        yield
    finally:
        _put(before)


def keep_demo() -> None:
    """Write down how far the demo's clock is from the true time."""
    place = _demo_file()
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(f"{_setting.offset.total_seconds():.6f}\n", encoding="ascii")


def resume_demo() -> None:
    """Take up the demo's clock where `keep_demo` left it; a plant has none."""
    place = _demo_file()
    if getattr(settings, "MODE", "plant") != "demo" or not place.exists():
        return
    seconds = float(place.read_text(encoding="ascii"))
    _put(_Setting(offset=timedelta(seconds=seconds)))


def _demo_file() -> Path:
    return Path(settings.HOME) / "clock"


def _in_utc(instant: datetime) -> datetime:
    if instant.tzinfo is None:
        raise ValueError("The clock is set to an instant with a zone.")
    return instant.astimezone(UTC)


def _put(setting: _Setting) -> None:
    global _setting  # noqa: PLW0603 - the clock is one for the whole process
    if getattr(settings, "MODE", "plant") == "plant":
        raise RuntimeError("The clock of a plant is not set by the program.")
    _setting = setting
