"""The room `record` as a Django app."""

from django.apps import AppConfig
from django.db.models.signals import post_migrate, pre_migrate
from django.utils.module_loading import autodiscover_modules


class RoomConfig(AppConfig):
    name = "lims.record"
    label = "record"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from lims.record import triggers  # needs the models

        autodiscover_modules("verbs")
        pre_migrate.connect(
            triggers.take_off_before_migrate, sender=self, dispatch_uid="triggers_off"
        )
        post_migrate.connect(
            triggers.install_after_migrate, sender=self, dispatch_uid="triggers_on"
        )
