import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

import lims.record.recorded


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="Person",
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
                ("password", models.CharField(max_length=128, verbose_name="password")),
                ("account", models.CharField(max_length=40, unique=True)),
                ("name", models.CharField(max_length=120, verbose_name="printed name")),
                ("mail", models.EmailField(blank=True, max_length=254)),
                ("is_active", models.BooleanField(default=True)),
                ("invited", models.BooleanField(default=True)),
                ("created_at", models.DateTimeField()),
            ],
            options={
                "verbose_name_plural": "people",
                "ordering": ["name"],
            },
            bases=(lims.record.recorded.Recorded, models.Model),
        ),
        migrations.CreateModel(
            name="Site",
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
                ("code", models.CharField(max_length=10, unique=True)),
                ("name", models.CharField(max_length=120)),
                ("laboratory", models.CharField(max_length=200)),
                ("address", models.TextField()),
                ("mail", models.EmailField(max_length=254)),
                ("quality_mail", models.EmailField(max_length=254)),
                ("zone", models.CharField(default="Europe/Berlin", max_length=60)),
                ("language", models.CharField(default="en", max_length=10)),
                ("check_address", models.URLField()),
                ("allow_deputy_alone", models.BooleanField(default=False)),
                ("first_certificate", models.PositiveIntegerField(default=1)),
                ("only", models.BooleanField(default=True, editable=False)),
                ("version", models.PositiveIntegerField(default=1)),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(fields=("only",), name="there_is_one_site"),
                    models.CheckConstraint(
                        condition=models.Q(("only", True)), name="the_site_is_the_only"
                    ),
                ],
            },
            bases=(lims.record.recorded.Versioned, models.Model),
        ),
        migrations.CreateModel(
            name="RoleGiven",
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
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("technician", "technician"),
                            ("laboratory_manager", "laboratory manager"),
                            ("quality_manager", "quality manager"),
                            ("technologist", "technologist"),
                            ("despatch", "despatch"),
                            ("auditor", "auditor"),
                            ("administrator", "administrator"),
                        ],
                        max_length=30,
                    ),
                ),
                ("given_at", models.DateTimeField()),
                ("given_by", models.TextField()),
                ("taken_at", models.DateTimeField(blank=True, null=True)),
                ("taken_by", models.TextField(blank=True)),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="roles_given",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "roles given",
                "ordering": ["id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("taken_at", None)),
                        fields=("person", "role"),
                        name="a_role_is_held_once",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("taken_at", None), ("taken_by", "")),
                            models.Q(
                                ("taken_at__isnull", False),
                                models.Q(("taken_by", ""), _negated=True),
                            ),
                            _connector="OR",
                        ),
                        name="role_taken_at_and_by_go_together",
                    ),
                ],
            },
            bases=(lims.record.recorded.Recorded, models.Model),
        ),
    ]
