"""The commands as a Django app. Its name is the package's, since Django looks for `management/commands` below it."""

from django.apps import AppConfig


class ManagementConfig(AppConfig):
    name = "lims"
    label = "management"
    default_auto_field = "django.db.models.BigAutoField"
