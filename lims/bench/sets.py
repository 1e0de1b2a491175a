"""Which of the sets of a test readings go to, and what each of them is."""

from collections.abc import Iterable

from lims.bench.models import Determination

State = Determination.State


def current_of(sets: Iterable[Determination], *, asks: str) -> Determination | None:
    """The set that readings go to now: the last that is begun; none where a further one is asked for; else the last that stands."""
    standing = sorted(
        (it for it in sets if it.state != State.SET_ASIDE), key=lambda it: it.place
    )
    begun = [it for it in standing if it.state == State.BEGUN]
    if begun:
        return begun[-1]
    return None if asks or not standing else standing[-1]
