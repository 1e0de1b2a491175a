"""What stood in the precisions of an edition is carried over into a revision of its figures; a check stays a check."""

from django.db import migrations

from lims.record import carrying

WHATS = ("repeatability", "reproducibility")
NOTE = "carried over from the precisions kept before"
ABOUT = carrying.Thing("reference data", "methods", "reference data of the methods")


def figures_of(rows):
    """The figures of an edition's old rows; what was empty stays not stated."""
    return [
        {
            "characteristic": row.characteristic.code,
            "what": what,
            "value": getattr(row, what),
            "source": " ".join(
                row.source.split()
            ),  # no narrow spaces, which approval refuses
            "standing": row.standing,
            "level_from": row.level_from,
            "level_to": row.level_to,
        }
        for row in rows
        for what in WHATS
        if getattr(row, what)
    ]


def carry_over(apps, schema_editor):
    """One revision an edition, in force as shipped: nobody signed these figures."""
    using = schema_editor.connection.alias
    editions = apps.get_model("methods", "MethodEdition").objects.using(using)
    told = [
        row
        for edition in editions.filter(figures_revisions=None)
        .select_related("method")
        .order_by("pk")
        for row in rows_of(apps, edition)
    ]
    carrying.carry_over(
        apps, using, verb="figures_carried_over", about=ABOUT, rows=told
    )


def rows_of(apps, edition):
    """The revision of an edition's figures and the check of them, each with its name."""
    figures = figures_of(
        edition.precisions.select_related("characteristic").order_by("pk")
    )
    if not figures:
        return
    made = {"edition": edition, "figures": figures}
    name = f"{edition.method.designation}, edition {edition.edition}"
    revision = apps.get_model("methods", "FiguresRevision")
    told = {"number": 1, "state": "in force", "is_shipped": True, "note": NOTE}
    yield revision(**told, **made), f"figures 1 of {name}"
    if edition.checked_on:
        check = apps.get_model("methods", "FigureCheck")
        who = {"checked_by": edition.checked_by, "checked_on": edition.checked_on}
        yield check(**who, **made), f"check of {name} by {edition.checked_by}"


class Migration(migrations.Migration):
    dependencies = [("methods", "0002_figures_in_revisions")]

    operations = [migrations.RunPython(carry_over, migrations.RunPython.noop)]
