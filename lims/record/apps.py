"""The room `record` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.record"
    label = "record"
    default_auto_field = "django.db.models.BigAutoField"
