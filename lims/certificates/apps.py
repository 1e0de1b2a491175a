"""The room `certificates` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.certificates"
    label = "certificates"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.certificates import checks, constraints  # need the models
        from lims.record import verify

        constraints.register()
        verify.register_check(checks.files)
