import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

import lims.record.recorded


class Migration(migrations.Migration):
    dependencies = [
        ("instruments", "0001_start_the_instruments"),
        ("methods", "0005_sign_figures_whole"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField(
            model_name="instrument",
            name="out_since",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.CreateModel(
            name="ReferenceMaterial",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True,
                        primary_key=True,
                        serialize=False,
                        verbose_name="ID",
                    ),
                ),
                ("name", models.CharField(max_length=80)),
                ("lot", models.CharField(max_length=40)),
                ("kind", models.CharField(max_length=40)),
                ("assigned", models.CharField(max_length=20)),
                ("basis", models.CharField(max_length=200)),
                ("deviation", models.CharField(blank=True, max_length=20)),
                ("deviation_basis", models.CharField(blank=True, max_length=200)),
                ("count", models.PositiveSmallIntegerField(default=3)),
                ("every_days", models.PositiveSmallIntegerField(default=7)),
                ("expires_on", models.DateField()),
                ("added_at", models.DateTimeField()),
                (
                    "added_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "characteristic",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reference_materials",
                        to="methods.characteristic",
                    ),
                ),
            ],
            options={
                "ordering": ["name", "lot"],
            },
            bases=(lims.record.recorded.Recorded, models.Model),
        ),
        migrations.CreateModel(
            name="ReferenceReading",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True,
                        primary_key=True,
                        serialize=False,
                        verbose_name="ID",
                    ),
                ),
                ("texts", models.JSONField()),
                ("mean", models.CharField(max_length=40)),
                ("assigned", models.CharField(max_length=20)),
                ("bias", models.CharField(max_length=40)),
                ("deviation", models.CharField(blank=True, max_length=40)),
                ("deviation_basis", models.CharField(max_length=200)),
                (
                    "finding",
                    models.CharField(
                        choices=[
                            ("within limits", "within limits"),
                            ("beyond the warning limit", "beyond the warning limit"),
                            ("beyond the action limit", "beyond the action limit"),
                            ("no limit yet", "no limit yet"),
                        ],
                        max_length=30,
                    ),
                ),
                ("instrument_state", models.CharField(max_length=20)),
                ("read_at", models.DateTimeField()),
                (
                    "instrument",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="reference_readings",
                        to="instruments.instrument",
                    ),
                ),
                (
                    "material",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="readings",
                        to="instruments.referencematerial",
                    ),
                ),
                (
                    "read_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["-read_at", "-id"],
            },
            bases=(lims.record.recorded.Recorded, models.Model),
        ),
        migrations.AddConstraint(
            model_name="referencematerial",
            constraint=models.UniqueConstraint(
                fields=("name", "lot"), name="one_reference_material_a_lot"
            ),
        ),
        migrations.AddConstraint(
            model_name="referencematerial",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("deviation", ""),
                    models.Q(("deviation_basis", ""), _negated=True),
                    _connector="OR",
                ),
                name="a_stated_deviation_has_a_basis",
            ),
        ),
    ]
