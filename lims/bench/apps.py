"""The room `bench` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.bench"
    label = "bench"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.bench import constraints  # needs the record's triggers

        constraints.register()
