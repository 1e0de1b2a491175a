"""Addresses of the place certificates."""

from django.urls import path

from lims.screens.certificates import internal, issuing, views

app_name = "certificates"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("can-leave/", views.can_leave, name="can-leave"),
    path("issue/", issuing.choose_lot, name="issue"),
    path("allot/<str:number>/", issuing.allot, name="allot"),
    path("allotments/<int:pk>/", issuing.show_allotment, name="allotment"),
    path("allotments/<int:pk>/preview/", issuing.preview, name="preview"),
    path("allotments/<int:pk>/issue/", issuing.issue, name="issue-now"),
    path("allotments/<int:pk>/give-back/", issuing.give_back, name="give-back"),
    path("internal-copy/<str:number>/", internal.of_lot, name="internal-copy-of-lot"),
    path("<str:number>/", views.show_one, name="one"),
    path("<str:number>/internal-copy/", internal.of_certificate, name="internal-copy"),
    path("<str:number>/print/", views.print_again, name="print"),
    path("<str:number>/<int:revision>/pdf/", views.pdf, name="pdf"),
]
