"""The room `products` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.products"
    label = "products"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.products.triggers import register_all  # not before the settings stand

        register_all()
