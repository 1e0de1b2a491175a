"""The entries that this room writes, in words."""

from lims.record.words import register

register(
    {
        "file_received": "File brought in",
        "file_reading_set": "How a file is to be read, set",
        "columns_mapped": "Columns of a file mapped",
        "questions_answered": "Questions about a file answered",
        "file_refused": "File refused",
        "file_left": "File not taken in",
        "file_taken_in": "File taken in",
        "import_withdrawn": "What a file brought, withdrawn",
    }
)
