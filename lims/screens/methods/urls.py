"""Addresses of the place methods. A designation may hold a stroke, so a method goes by its row."""

from django.urls import path

from lims.screens.methods import drafting, keeping, proved, views

app_name = "methods"
urlpatterns = [
    path("proved/", proved.show_all, name="proved"),
    path("proved/report.pdf", proved.report, name="proof-report"),
    path("proved/<slug:name>/", proved.show_one, name="proved-one"),
    path("", views.show_list, name="list"),
    path("new/", keeping.add_method, name="method-new"),
    path("<int:pk>/", views.show_one, name="one"),
    path("<int:pk>/editions/new/", keeping.add_edition, name="edition-new"),
    path("editions/<int:pk>/check/", keeping.check_figures, name="check-figures"),
    path("editions/<int:pk>/figures/new/", drafting.open_draft, name="figures-draft"),
    path("figures/<int:pk>/", drafting.show_revision, name="figures"),
    path("figures/<int:pk>/figure/", drafting.set_figure, name="figure"),
    path(
        "figures/<int:pk>/figure/take-out/",
        drafting.remove_figure,
        name="figure-remove",
    ),
    path("figures/<int:pk>/discard/", drafting.discard_draft, name="figures-discard"),
    path("figures/<int:pk>/approve/", drafting.approve, name="figures-approve"),
    path("characteristics/", views.show_characteristics, name="characteristic-list"),
    path(
        "new-characteristic/",
        keeping.add_characteristic,
        name="characteristic-new",
    ),
    path(
        "characteristics/<slug:code>/",
        views.show_characteristic,
        name="characteristic",
    ),
    path(
        "characteristics/<slug:code>/own-uncertainty/",
        keeping.state_uncertainty,
        name="own-uncertainty",
    ),
]
