"""The room `decisions` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.decisions"
    label = "decisions"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.decisions import constraints  # needs the record's triggers

        constraints.register()
