"""Passwords of the demo's accounts: four words and a number, made anew for each demo database."""

import secrets

_LIST = """
acorn amber anchor apple apron arrow aspen autumn badger banjo basket beacon birch
bramble breeze bridge bronze brook button candle canoe canyon castle cedar cellar
chalk cherry cinder clover cobalt comet copper coral cotton cricket crystal daisy
dapple dolphin dragon ember falcon feather fennel ferry fiddle finch forest fossil
garden ginger glacier granite grove hamlet harbour hazel heather heron hollow
indigo island ivory jasper juniper kestrel ladder lagoon lantern larch laurel
lemon lichen linen lobster lupin magnet maple marble meadow melon mitten mosaic
mussel nectar nettle nutmeg oatmeal olive orchard otter paddle parsley pebble
pepper pigeon pillow planet plover poplar poppy quartz rabbit raven ribbon river
robin saddle saffron sandal sparrow spruce summer sunset teapot thimble thistle
timber tulip turnip valley velvet violet walnut willow window winter yarrow
"""
WORDS = tuple(_LIST.split())
WORD_COUNT = 4


def new_password() -> str:
    """For example river-teapot-maple-otter-57."""
    words = [secrets.choice(WORDS) for _ in range(WORD_COUNT)]
    return "-".join([*words, str(10 + secrets.randbelow(90))])


class NewPasswords(dict[str, str]):
    """Account -> password; an account asked for the first time gets a new one."""

    def __missing__(self, account: str) -> str:
        self[account] = new_password()
        return self[account]
