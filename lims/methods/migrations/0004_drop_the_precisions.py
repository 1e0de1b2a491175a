"""The old tables of precision go, once their rows stand in revisions of figures."""

from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [("methods", "0003_carry_figures_over")]

    operations = [
        migrations.RemoveConstraint(
            model_name="methodedition",
            name="edition_checked_by_and_on_go_together",
        ),
        migrations.RemoveField(model_name="methodedition", name="checked_by"),
        migrations.RemoveField(model_name="methodedition", name="checked_on"),
        migrations.DeleteModel(name="Precision"),
    ]
