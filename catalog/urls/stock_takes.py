"""Addresses of stock-takes."""

from django.urls import path

from catalog.views import stock_takes

urlpatterns = [
    path("locations/<int:pk>/stock-take/", stock_takes.stock_take, name="stock-take"),
    path(
        "locations/<int:pk>/stock-take/sheet/",
        stock_takes.stock_take_print,
        name="stock-take-sheet",
    ),
    path("stock-takes/<int:pk>/", stock_takes.stock_take_detail, name="stock-take-detail"),
    path("stock-takes/<int:pk>/move/", stock_takes.stock_take_move, name="stock-take-move"),
]
