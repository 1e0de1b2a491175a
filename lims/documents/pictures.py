"""A drawing of the screens as a picture on paper: in print's own ink, whatever the sheet of the screens says."""

import base64

INK, GREY, ACCENT = "#111", "#666", "#0b4f5e"
STYLE = (
    f"text {{ font-family: Paper; font-size: 12px; fill: {INK} }}"
    " .strong { font-weight: 700 }"
    f" .line {{ fill: none; stroke: {ACCENT}; stroke-width: 1.5px }}"
    f" .base {{ fill: none; stroke: {INK}; stroke-width: 1px }}"
    f" .now {{ fill: none; stroke: {GREY}; stroke-width: 1px; stroke-dasharray: 2 3 }}"
    f" .fitted {{ fill: none; stroke: {INK}; stroke-width: 2px }}"
    f" .extended {{ fill: none; stroke: {INK}; stroke-width: 1px; stroke-dasharray: 6 3 }}"
    f" .pt {{ fill: {INK} }}"
)


def picture(drawn: str) -> str:
    """The address of a drawing, its ink written into it: the paper reads neither network nor disk."""
    opened, _, rest = drawn.partition(">")
    styled = (
        opened.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
        + f"><style>{STYLE}</style>{rest}"
    )
    coded = base64.b64encode(styled.encode()).decode()
    return f"data:image/svg+xml;base64,{coded}"
