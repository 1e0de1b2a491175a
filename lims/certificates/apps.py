"""The room `certificates` as a Django app."""

from django.apps import AppConfig


class RoomConfig(AppConfig):
    name = "lims.certificates"
    label = "certificates"
    default_auto_field = "django.db.models.BigAutoField"
