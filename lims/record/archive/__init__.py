"""The whole record as one file, in forms that any program reads; and a database made of it again."""
