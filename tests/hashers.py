"""Argon2 as the product has it, but cheap: tests hash hundreds of passwords."""

from django.contrib.auth.hashers import Argon2PasswordHasher


class QuickArgon2(Argon2PasswordHasher):
    time_cost = 1
    memory_cost = 8
    parallelism = 1
