"""The addresses: one line a place."""

from django.urls import include, path

urlpatterns = [
    path("", include("lims.screens.front.urls")),
    path("bench/", include("lims.screens.bench.urls")),
    path("batches/", include("lims.screens.batches.urls")),
    path("decisions/", include("lims.screens.decisions.urls")),
    path("certificates/", include("lims.screens.certificates.urls")),
    path("trends/", include("lims.screens.trends.urls")),
    path("imports/", include("lims.screens.imports.urls")),
    path("specifications/", include("lims.screens.specifications.urls")),
    path("methods/", include("lims.screens.methods.urls")),
    path("instruments/", include("lims.screens.instruments.urls")),
    path("record/", include("lims.screens.record.urls")),
    path("setup/", include("lims.screens.setup.urls")),
]
