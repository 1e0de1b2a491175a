"""The screens as a Django app: its tags and context belong to every page."""

from django.apps import AppConfig


class ScreensConfig(AppConfig):
    name = "lims.screens"
    label = "screens"
    verbose_name = "Screens"
