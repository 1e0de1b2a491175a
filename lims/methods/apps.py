"""The room `methods` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.methods"
    label = "methods"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.methods.triggers import register_all  # not before the settings stand

        register_all()
