"""The room `instruments` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.instruments"
    label = "instruments"
    default_auto_field = "django.db.models.BigAutoField"
