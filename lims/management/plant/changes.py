"""What changes in the plant while the story runs: an instrument put in service, a revision put in force, each at its time."""

from collections.abc import Iterator, Mapping, MutableMapping
from functools import partial
from typing import Any

from lims.management.plant.goods import revise
from lims.management.plant.house import put_in_service
from lims.management.plant.story import Step, moment
from lims.people.queries import person


def changes_of(
    story: Mapping[str, Any], passwords: MutableMapping[str, str]
) -> Iterator[Step]:
    """A step for everything that the house and the goods get later."""
    for one in story["house"]["later"]:
        yield Step(moment(one["at"]), partial(put_in_service, one))
    for one in story["goods"]["later"]:
        yield Step(moment(one["at"]), partial(_put_in_force, one, passwords))


def _put_in_force(told: Mapping[str, Any], passwords: MutableMapping[str, str]) -> None:
    """The next revision of a product: what is told goes on top of the lines in force."""
    revise(
        told,
        drafter=person("chem-1"),
        approver=person("qm-1"),
        passwords=passwords,
    )
