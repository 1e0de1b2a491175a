"""The room `batches` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.batches"
    label = "batches"
    default_auto_field = "django.db.models.BigAutoField"
