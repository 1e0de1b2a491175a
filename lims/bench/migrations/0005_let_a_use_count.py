import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

import lims.record.recorded


class Migration(migrations.Migration):
    dependencies = [
        ("bench", "0004_let_sentences_be_whole"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="UseAllowed",
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
                ("reason", models.CharField(max_length=300)),
                ("allowed_at", models.DateTimeField()),
                (
                    "allowed_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "condition",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="allowed",
                        to="bench.condition",
                    ),
                ),
            ],
            bases=(lims.record.recorded.Recorded, models.Model),
        ),
    ]
