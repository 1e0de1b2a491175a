"""What the record's own entries say."""

from lims.record.words import register

register(
    {
        "archive_begun": "Archive of the whole record begun",
        "record_restored": "Record restored from an archive",
    }
)
