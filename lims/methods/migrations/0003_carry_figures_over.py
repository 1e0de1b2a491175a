"""What stood in the precisions of an edition is carried over into a revision of its figures; a check stays a check."""

from django.db import migrations

from lims.record import doors

WHATS = ("repeatability", "reproducibility")
NOTE = "carried over from the precisions kept before"


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
    revisions, checks = [], []
    editions = apps.get_model("methods", "MethodEdition").objects.using(using)
    revision = apps.get_model("methods", "FiguresRevision")
    check = apps.get_model("methods", "FigureCheck")
    for edition in editions.filter(figures_revisions=None).order_by("pk"):
        rows = edition.precisions.select_related("characteristic").order_by("pk")
        made = {"edition": edition, "figures": figures_of(rows)}
        if not made["figures"]:
            continue
        told = {"number": 1, "state": "in force", "is_shipped": True, "note": NOTE}
        revisions.append(revision(**told, **made))
        if edition.checked_on:
            who = {"checked_by": edition.checked_by, "checked_on": edition.checked_on}
            checks.append(check(**who, **made))
    doors.open_gate(using)
    revision.objects.using(using).bulk_create(revisions)
    check.objects.using(using).bulk_create(checks)
    doors.close_gate(using)


class Migration(migrations.Migration):
    dependencies = [("methods", "0002_figures_in_revisions")]

    operations = [migrations.RunPython(carry_over, migrations.RunPython.noop)]
