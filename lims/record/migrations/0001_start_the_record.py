from django.db import migrations, models

import lims.record.recorded


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="OpenGate",
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
            ],
            options={
                "db_table": "record_gate",
            },
        ),
        migrations.CreateModel(
            name="Entry",
            fields=[
                ("seq", models.BigIntegerField(primary_key=True, serialize=False)),
                ("at", models.CharField(max_length=27)),
                ("account", models.TextField()),
                ("printed_name", models.TextField()),
                ("verb", models.CharField(max_length=80)),
                ("about_kind", models.CharField(max_length=80)),
                ("about_key", models.CharField(max_length=200)),
                ("about_name", models.TextField()),
                ("reason", models.TextField(blank=True)),
                ("note", models.TextField(blank=True)),
                ("content", models.TextField()),
                ("previous", models.CharField(max_length=64)),
                ("hash", models.CharField(max_length=64)),
            ],
            options={
                "verbose_name_plural": "entries",
                "ordering": ["-seq"],
                "indexes": [
                    models.Index(
                        fields=["about_kind", "about_key"], name="entry_about"
                    ),
                    models.Index(fields=["account", "seq"], name="entry_by_account"),
                    models.Index(fields=["verb", "seq"], name="entry_by_verb"),
                    models.Index(fields=["at"], name="entry_by_time"),
                ],
            },
        ),
        migrations.CreateModel(
            name="Signature",
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
                ("account", models.TextField()),
                ("printed_name", models.TextField()),
                ("function", models.TextField()),
                ("at", models.DateTimeField()),
                ("zone", models.CharField(max_length=60)),
                ("meaning", models.TextField()),
                ("about_kind", models.CharField(max_length=80)),
                ("about_key", models.CharField(max_length=200)),
                ("version", models.PositiveIntegerField()),
                ("content", models.TextField()),
                ("content_hash", models.CharField(max_length=64)),
            ],
            options={
                "ordering": ["id"],
                "indexes": [
                    models.Index(
                        fields=["about_kind", "about_key"], name="signature_about"
                    )
                ],
            },
            bases=(lims.record.recorded.Recorded, models.Model),
        ),
    ]
