"""Somebody else acts between an action's first checks and its entry."""


def meanwhile(monkeypatch, module, act):
    """Let `act` happen just before the next entry that an action of `module` opens."""
    opens = module.entry

    def opens_late(**told):
        monkeypatch.setattr(module, "entry", opens)
        act()
        return opens(**told)

    monkeypatch.setattr(module, "entry", opens_late)
