"""What the entries of this room say."""

from lims.record import words

words.register(
    {
        "site_founded": "Site founded",
        "site_changed": "Settings of the site changed",
        "person_invited": "Person invited",
        "invitation_accepted": "Invitation accepted and password chosen",
        "password_changed": "Own password changed",
        "person_changed": "Printed name or mail address changed",
        "role_given": "Role given",
        "role_taken": "Role taken back",
        "person_deactivated": "Person deactivated",
        "person_reactivated": "Person reactivated",
        "password_reset_started": "Password made void, new one to be chosen",
    }
)
