"""What a model of a room carries: it is saved only inside an entry, and the entry tells how it changed."""

from collections.abc import Collection, Mapping
from copy import deepcopy
from typing import TYPE_CHECKING, Any, ClassVar, NoReturn, Self, TypeVar

from django.db import models

from lims.record import opening
from lims.record.differences import State, text_of
from lims.record.refusals import ChangedSince, GateError

M = TypeVar("M", bound=models.Model)

if TYPE_CHECKING:

    class _Row(models.Model):
        class Meta:
            abstract = True
else:
    _Row = object  # a plain mixin, so that migrations keep it among a model's bases


class RecordedQuerySet(models.QuerySet[M]):
    """Reads as any queryset; writes only row by row, through the row's own save."""

    def update(self, **kwargs: Any) -> NoReturn:
        _refuse_many("update")

    def delete(self) -> NoReturn:
        _refuse_many("delete")

    def _raw_delete(self, using: str | None) -> NoReturn:
        _refuse_many("_raw_delete")

    def bulk_create(self, *args: Any, **kwargs: Any) -> NoReturn:
        _refuse_many("bulk_create")

    def bulk_update(self, *args: Any, **kwargs: Any) -> NoReturn:
        _refuse_many("bulk_update")


RecordedManager = models.Manager.from_queryset(RecordedQuerySet, "RecordedManager")


class Recorded(_Row):
    """The plain mixin of every recorded model: `class Thing(Recorded, models.Model)`.

    secret_fields: told as changed, never shown. hashed_fields: long frozen texts, shown as
    their SHA-256. append_only: rows are added and never change; a correction is a new row.
    named_by: the links that record_key follows, fetched with the rows where many are named.
    """

    secret_fields: ClassVar[frozenset[str]] = frozenset()
    hashed_fields: ClassVar[frozenset[str]] = frozenset()
    append_only: ClassVar[bool] = False
    named_by: ClassVar[tuple[str, ...]] = ()

    _loaded: Mapping[str, Any]

    def record_key(self) -> tuple[str, str, str]:
        """What the record calls this row: its kind, its key within the kind, its name."""
        kind = str(self._meta.verbose_name)
        return kind, str(self.pk), f"{kind} {self.pk}"

    @classmethod
    def from_db(
        cls,
        db: str | None,
        field_names: Collection[str],
        values: Collection[Any],
        **more: Any,
    ) -> Self:
        row = super().from_db(db, field_names, values, **more)
        if cls.append_only:  # never saved again: nothing to compare with
            return row
        row._loaded = {  # noqa: SLF001 - this row's own
            name: deepcopy(value) if isinstance(value, list | dict) else value
            for name, value in zip(field_names, values, strict=True)
        }
        return row

    def refresh_from_db(
        self, using: str | None = None, fields: Any = None, from_queryset: Any = None
    ) -> None:
        super().refresh_from_db(using, fields, from_queryset)
        self._remember(fields)

    def save(self, **how: Any) -> None:
        opening.demand(self, how.get("using"))  # before Django begins to write
        super().save(**how)

    def delete(
        self, using: str | None = None, keep_parents: Any = None
    ) -> tuple[int, dict[str, int]]:
        it = opening.demand(self, using)
        self._refuse_if_append_only(it.stored(self))
        it.touched(self)
        return super().delete(using=using, keep_parents=bool(keep_parents))

    def _save_table(  # noqa: PLR0917 - Django's own signature
        self,
        raw: Any = None,
        cls: Any = None,
        force_insert: Any = None,
        force_update: Any = None,
        using: str | None = None,
        update_fields: Collection[str] | None = None,
    ) -> bool:
        # Every way of saving one row comes through here, loaddata's as well.
        it = opening.demand(self, using)
        stored = it.stored(self)
        if stored is not None:
            self._refuse_if_append_only(stored)
            self._refuse_overwriting(stored, update_fields)
        updated: bool = super()._save_table(  # type: ignore[misc]
            raw, cls, force_insert, force_update, using, update_fields
        )
        it.touched(self)
        self._remember(update_fields)
        return updated

    def _refuse_if_append_only(self, stored: State | None) -> None:
        if stored is not None and self.append_only:
            raise GateError(
                f"A {self._meta.verbose_name} is never changed: add a new one that names it."
            )

    def _refuse_overwriting(
        self, stored: State, update_fields: Collection[str] | None
    ) -> None:
        """Somebody else's change since this row was loaded is never silently undone."""
        loaded = getattr(self, "_loaded", {})
        for field in self._meta.concrete_fields:
            written = update_fields is None or bool(
                {field.name, field.attname} & set(update_fields)
            )
            if field.primary_key or not written or field.attname not in loaded:
                continue
            seen = text_of(field, field.to_python(loaded[field.attname]))
            mine = text_of(field, field.to_python(getattr(self, field.attname)))
            if stored[field.name] not in {seen, mine}:
                raise changed_since(self)

    def _remember(self, fields: Collection[str] | None) -> None:
        kept = dict(getattr(self, "_loaded", {}))
        for field in self._meta.concrete_fields:
            asked = fields is None or field.name in fields or field.attname in fields
            if asked and field.attname in self.__dict__:
                kept[field.attname] = deepcopy(self.__dict__[field.attname])
        self._loaded = kept


class Versioned(Recorded):
    """A recorded row with a `version` that each save raises by one, filtered on the old one.

    The model declares `version = models.PositiveIntegerField(default=1)`.
    """

    version: Any

    def save_if_version(
        self, version: int, *, update_fields: Collection[str] | None = None
    ) -> None:
        """Save, provided that the row is still at the version that the person saw."""
        if self.version != version:
            raise changed_since(self)
        self.save(update_fields=update_fields)

    def save(self, **how: Any) -> None:
        if self._state.adding:
            super().save(**how)
            return
        seen = self.version
        self.version = seen + 1
        if how.get("update_fields") is not None:
            how["update_fields"] = {*how["update_fields"], "version"}
        try:
            super().save(**how)
        except BaseException:
            self.version = seen
            raise

    def _do_update(self, base_qs: Any, *args: Any, **kwargs: Any) -> Any:
        seen = base_qs.filter(version=self.version - 1)
        updated = super()._do_update(seen, *args, **kwargs)
        if not updated:
            raise changed_since(self)
        return updated


def changed_since(row: Recorded) -> ChangedSince:
    """The refusal for whoever saw an older state of this row."""
    name = row.record_key()[2]
    return ChangedSince(
        f"{name[:1].upper()}{name[1:]} was changed by somebody else since you opened it. "
        "Look at it as it is now, then decide again."
    )


def _refuse_many(what: str) -> NoReturn:
    raise GateError(
        f"{what}() would write past the record. Save or delete each row inside an entry."
    )
