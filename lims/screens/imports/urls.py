"""Addresses of the files that are brought in."""

from django.urls import path

from lims.screens.imports import (
    bringing,
    cells,
    columns,
    deciding,
    history,
    lines,
    logs,
    questions,
    views,
)

app_name = "imports"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("new/", bringing.bring_in, name="new"),
    path("templates/<str:kind>/", bringing.template, name="template"),
    path("history/<int:pk>/", history.show, name="history"),
    path("logs/<int:pk>/", logs.show, name="log"),
    path("<int:pk>/", views.show_one, name="one"),
    path("<int:pk>/progress/", views.progress, name="progress"),
    path("<int:pk>/file/", views.file, name="file"),
    path("<int:pk>/columns/", columns.show, name="columns"),
    path("<int:pk>/questions/", questions.show, name="questions"),
    path("<int:pk>/cells/", cells.show, name="cells"),
    path("<int:pk>/lines/", lines.show, name="lines"),
    path("<int:pk>/look/", deciding.look, name="look"),
    path("<int:pk>/reading/", deciding.set_reading, name="reading"),
    path("<int:pk>/take/", deciding.take, name="take"),
    path("<int:pk>/leave/", deciding.leave, name="leave"),
    path("<int:pk>/withdraw/", deciding.withdraw, name="withdraw"),
]
