"""What the archive says of itself to whoever opens it without this program."""

README = """\
THE WHOLE RECORD OF A LABORATORY

This archive holds everything that the laboratory recorded, in open forms: JSON in
UTF-8, one row a line, and the stored files as they are. It can be read without the
program that wrote it.

manifest.json
    format     the version of this form
    made_at    when it was made, UTC
    entries    how many entries the record has
    head       the hash of the last entry; with it the whole record is fixed
    tables     for each table its part, its number of rows and its columns
    parts      for each other part of this archive its size in bytes and its SHA-256

entries.jsonl
    The record: who did what, when and why, one entry a line, the oldest first.
    `content` is exactly the text that was hashed; it is JSON itself. The chain can be
    computed again: the head before the first entry is 64 zeros, and each hash is the
    SHA-256 of the ASCII of the head before it followed by `content` in UTF-8.

tables/
    One part a table, its rows in the order of their keys. Names ending in _id hold the
    key `id` of a row in the table that they lead to. Numbers of measurements are text, as
    they were typed or rounded, so that no digit is lost. Moments are UTC and end in Z,
    days are YYYY-MM-DD, what is unknown is null, blocks of bytes are base64.

files/
    The stored files under the names by which the tables know them: certificates as they
    were issued, files that were brought in as they came.

What is left out: passwords (whoever comes back is invited again), who is signed in
now, and what can be made again from the rest (the looking-through of a file that is not
yet taken in, work that waits in the background).

A database is made of it by `manage.py restore FILE` on an empty, migrated one. Compare
the head with one that was noted outside the house before you trust what is restored.
"""
