"""Settings of the laboratory. What differs between sites comes from the environment; a misspelt value stops the start."""

import secrets
from pathlib import Path

import environ
from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured

ROOT = Path(__file__).resolve().parent.parent
HOME = ROOT / ".kettlemark"  # database, files and secrets of this copy; ignored by git
HOME.mkdir(mode=0o700, exist_ok=True)

env = environ.Env()


def _choice(name: str, default: str, choices: tuple[str, ...]) -> str:
    value = str(env.str(name, default))
    if value not in choices:
        raise ImproperlyConfigured(
            f"{name} is “{value}”; it must be one of: {', '.join(choices)}."
        )
    return value


MODE = _choice("KETTLEMARK_MODE", "demo", ("demo", "plant"))
IS_PLANT = MODE == "plant"
DEBUG = False


def _own_secret() -> str:
    """The secret of this copy's demo, made once and readable by its owner alone."""
    place = HOME / "secret"
    if not place.exists():
        place.touch(mode=0o600)
        place.write_text(secrets.token_urlsafe(64), encoding="ascii")
    return place.read_text(encoding="ascii")


SECRET_KEY = env.str("KETTLEMARK_SECRET_KEY", "") or ("" if IS_PLANT else _own_secret())
if len(SECRET_KEY) < 50:
    raise ImproperlyConfigured(
        "KETTLEMARK_SECRET_KEY must have at least 50 characters."
    )
ALLOWED_HOSTS = env.list(
    "KETTLEMARK_HOSTS", default=["localhost", "127.0.0.1", "[::1]", "testserver"]
)
CSRF_TRUSTED_ORIGINS = env.list("KETTLEMARK_ORIGINS", default=[])

INSTALLED_APPS = [
    "lims.record",
    "lims.people",
    "lims.methods",
    "lims.instruments",
    "lims.products",
    "lims.batches",
    "lims.bench",
    "lims.imports",
    "lims.decisions",
    "lims.certificates",
    "lims.screens",
    "lims.management",
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "csp",
    "django_htmx",
    "django_tables2",
    "django_tasks",
    "django_tasks_db",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "lims.screens.middleware.StaffPages",
    "lims.screens.middleware.Refusals",
    "lims.screens.middleware.PrintableOnly",
]

ROOT_URLCONF = "lims.urls"
WSGI_APPLICATION = "lims.wsgi.application"
APPEND_SLASH = True

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [ROOT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "lims.screens.context.page",
            ],
            "builtins": ["lims.screens.templatetags.kettlemark"],
            "string_if_invalid": "",
        },
    },
]

# ---- Database: SQLite as shipped, PostgreSQL by DATABASE_URL
SQLITE_PRAGMAS = (
    "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA temp_store=MEMORY; "
    "PRAGMA mmap_size=134217728; PRAGMA cache_size=-20000;"
)
DATABASES = {
    "default": env.db(
        "DATABASE_URL", default=f"sqlite:///{HOME / 'kettlemark.sqlite3'}"
    )
}
_database = DATABASES["default"]
if _database["ENGINE"].endswith("sqlite3"):
    _database["OPTIONS"] = {
        "timeout": 20,
        "transaction_mode": "IMMEDIATE",
        "init_command": SQLITE_PRAGMAS,
    }
else:
    _database["CONN_HEALTH_CHECKS"] = True
    _database["CONN_MAX_AGE"] = 0
    _database["OPTIONS"] = {"pool": {"min_size": 1, "max_size": 4, "timeout": 10}}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# ---- People
AUTH_USER_MODEL = "people.Person"
AUTHENTICATION_BACKENDS = ["lims.people.signing_in.ByAccount"]
LOGIN_URL = "front:sign-in"
LOGIN_REDIRECT_URL = "front:home"
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "lims.people.passwords.LengthRule"},
    {"NAME": "lims.people.passwords.BlockedWords"},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
PASSWORD_RESET_TIMEOUT = 72 * 3600  # an invitation is good for three days
SESSION_COOKIE_AGE = 12 * 3600
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "lims.screens.front.views.form_expired"
CSRF_COOKIE_HTTPONLY = True

# ---- Language, numbers, time. The zone shown is the site's; what is stored is UTC.
LANGUAGE_CODE = "en"
USE_I18N = False
USE_THOUSAND_SEPARATOR = False
USE_TZ = True
TIME_ZONE = "UTC"

# ---- Files
STATIC_URL = "static/"
STATIC_ROOT = HOME / "static"
STATIC_ROOT.mkdir(exist_ok=True)  # WhiteNoise warns of a folder that is missing
STATICFILES_DIRS = [ROOT / "lims" / "static"]
WHITENOISE_USE_FINDERS = True
MEDIA_ROOT = Path(env.str("KETTLEMARK_FILES", str(HOME / "files")))
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}

# ---- Work in the background: a worker of its own (manage.py db_worker), or at once
WORK = _choice("KETTLEMARK_WORK", "worker", ("worker", "at once"))
TASKS: dict[str, dict[str, object]] = {
    "default": {
        "BACKEND": "django_tasks_db.DatabaseBackend"
        if WORK == "worker"
        else "django_tasks.backends.immediate.ImmediateBackend",
        "QUEUES": [],
    }
}
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000  # one box a refused cell, some hundreds of them

# ---- Web
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
if IS_PLANT:
    SECURE_SSL_REDIRECT = True
    SECURE_HSTS_SECONDS = 365 * 24 * 3600
    SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = True
    SESSION_COOKIE_NAME, CSRF_COOKIE_NAME = "__Host-session", "__Host-csrf"
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
        "object-src": [NONE],
    }
}
DJANGO_TABLES2_TEMPLATE = "_parts/table.html"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {
        "line": {"format": "%(asctime)s %(levelname)s %(name)s %(message)s"}
    },
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {"lims": {"level": "INFO"}},
}
