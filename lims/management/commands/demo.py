"""`manage.py demo`: an invented plant in mid-shift, in a database of its own, on this machine only."""

import socket
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.core.servers.basehttp import get_internal_wsgi_application

from lims.management import demo_accounts, demo_database
from lims.management.demo_accounts import Account, Kept
from lims.management.demo_passwords import NewPasswords

HOST = "127.0.0.1"
PORT = 8000
PROPOSED = (8765, 8766)  # ports, where the one asked for is taken
THREADS = 4  # each password check takes 100 MB while it runs


class Command(BaseCommand):
    help = "Sets up the demo, prints its accounts and serves it."
    requires_system_checks = []  # a quick start; .ci/check runs them

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--port", type=int, default=PORT, help=f"where to serve it ({PORT})"
        )
        parser.add_argument(
            "--no-serve", action="store_true", help="set it up, then stop"
        )
        parser.add_argument(
            "--fresh",
            action="store_true",
            help="delete the demo's database and files first",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        if settings.IS_PLANT:
            raise CommandError(
                "This is a plant's laboratory (KETTLEMARK_MODE=plant), and the demo would "
                "write invented lots into it: start the demo without that setting."
            )
        if not options["no_serve"]:
            check_port(options["port"])
        try:
            accounts = self.set_up(is_fresh=options["fresh"], port=options["port"])
        except demo_database.NotOursError as refusal:
            raise CommandError(str(refusal)) from refusal
        for line in demo_accounts.table(accounts):
            self.stdout.write(line)
        if options["no_serve"]:
            self.stdout.write("The demo is set up. Serve it: python3 manage.py demo")
        else:
            self.serve(options["port"])

    def set_up(self, *, is_fresh: bool, port: int) -> tuple[Account, ...]:
        """The accounts of the plant that stands there, or of one built now."""
        if is_fresh or demo_database.is_half_built():
            demo_database.delete()
        call_command("migrate", verbosity=0, skip_checks=True, interactive=False)
        accounts = demo_database.kept_accounts()
        return self.build(port) if accounts is None else accounts

    def build(self, port: int) -> tuple[Account, ...]:
        from lims.management.plant import build  # much code, needed once a database
        from lims.record import clock

        self.stdout.write("Building the invented plant: once, some seconds ...")
        self.stdout.flush()
        demo_accounts.write(
            Kept(database=demo_database.name(), is_complete=False, accounts=())
        )
        call_command("reference", verbosity=0)
        passwords = NewPasswords()
        build(passwords, check_address=f"http://{HOST}:{port}")
        clock.keep_demo()
        accounts = demo_database.accounts(passwords)
        demo_accounts.write(
            Kept(database=demo_database.name(), is_complete=True, accounts=accounts)
        )
        return accounts

    def serve(self, port: int) -> None:
        from waitress import create_server  # not needed where nothing is served

        from lims.management import worker

        server = create_server(
            get_internal_wsgi_application(), host=HOST, port=port, threads=THREADS
        )
        self.stdout.write(f"\nKettlemark: http://{HOST}:{port}/   (Ctrl+C ends it)")
        self.stdout.flush()
        with worker.beside():
            server.run()


def check_port(port: int) -> None:
    """Refuse a port that something else is served on, before anything is set up."""
    with socket.socket() as one:
        one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            one.bind((HOST, port))
        except (OSError, OverflowError) as trouble:
            other = next(it for it in PROPOSED if it != port)
            raise CommandError(
                f"Port {port} cannot be used ({trouble}): choose another, "
                f"for example: python3 manage.py demo --port {other}"
            ) from trouble
