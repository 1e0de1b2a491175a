"""The room `bench` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.bench"
    label = "bench"
    default_auto_field = "django.db.models.BigAutoField"
