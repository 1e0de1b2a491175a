"""The room `people` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.people"
    label = "people"
    default_auto_field = "django.db.models.BigAutoField"
