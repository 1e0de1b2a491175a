"""The plant's earlier years: its own workbook, brought in as anybody would, every proposal confirmed."""

from pathlib import Path

from lims.imports import actions
from lims.imports.models import Import
from lims.people.models import Person
from lims.sheets import jobs, looking


def bring_in(path: Path, *, kind: str, by: Person) -> Import:
    """Bring a file in, take each column for what is proposed, answer each question as proposed, and take it in."""
    import_of = actions.receive(
        name=path.name, content=path.read_bytes(), kind=kind, by=by
    )
    jobs.look(import_of, here=True)
    mapping = {it.block.key: it.uses for it in _blocks(import_of)}
    import_of = actions.map_columns(import_of=import_of, mapping=mapping, by=by)
    jobs.look(import_of, here=True)
    proposed = {
        it.block.key: {question.key: question.proposed for question in it.questions}
        for it in _blocks(import_of)
    }
    if any(proposed.values()):
        import_of = actions.answer(
            import_of=import_of, choices=proposed, instead={}, by=by
        )
        jobs.look(import_of, here=True)
    jobs.take(import_of, by=by, here=True)
    return Import.objects.get(pk=import_of.pk)


def _blocks(import_of: Import) -> tuple[looking.BlockLook, ...]:
    found = looking.looked(import_of)
    return found.blocks if found is not None else ()
