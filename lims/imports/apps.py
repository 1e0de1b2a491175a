"""The room `imports` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.imports"
    label = "imports"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.imports import checks  # needs the models
        from lims.record import verify

        verify.register_check(checks.files)
