"""A rig sheet as one HTML file that needs nothing else: no script, no link, no font to fetch.

It is read on a phone and on a screen, and printed one rig a page.
"""

from core.sheets.inks import FRAME_INKS
from core.sheets.rig_sheet.content import CheaperRig, Figure, RigPage, RigSheet, SetPage, SlotSwaps
from core.sheets.rig_sheet.html_parts import badge, chart, element, listed, table, their, words
from core.sheets.rig_sheet.html_style import STYLE
from core.sheets.rig_sheet.set_blocks import total_words
from core.sheets.rig_sheet.sky_drawing import SkyDrawing

__all__ = ["html_of"]


def html_of(sheet: RigSheet) -> bytes:
    """Write a sheet as HTML.

    Parameters
    ----------
    sheet : RigSheet

    Returns
    -------
    bytes
        UTF-8.
    """
    title = words(f"Rig sheet: {sheet.title}")
    parts = [element("h1", their(sheet.title))]
    if sheet.set_page is not None:
        parts.append(element("section", _set(sheet.set_page)))
    parts += [element("section", _rig(page)) for page in sheet.pages]
    warned = "".join(element("p", words(one)) for one in sheet.cautions)
    parts.append(element("section", f"<h3>▲ Caution</h3>\n{warned}", kind="caution"))
    parts.append(element("p", words(sheet.note), kind="quiet"))
    page = (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n"
        f"{element('main', ''.join(parts))}</body>\n</html>\n"
    )
    return page.encode()


def _set(page: SetPage) -> str:
    """The set: its rigs, its price, the steps."""
    head = ("", "rig", "optics", "field", "scale", "on the mount", "price", "worst finding")
    rows = (
        (
            *(_flag(line.letter, line.colour), f"<b>{their(line.name)}</b>", words(line.optics)),
            *(words(line.field), words(line.scale), words(line.mass), words(line.price)),
            badge(line.verdict),
        )
        for line in page.lines
    )
    total, saved = total_words(page)
    made = element("h2", "The set")
    made += table(head, rows, caption="The rigs of this set", numbers=(5, 6))
    made += element("h3", "Used one rig at a time")
    made += element("p", words(total), kind="sum") + element("p", words(saved))
    if page.shared:
        made += element("h3", "Shared parts") + listed(their(one) for one in page.shared)
    made += _figure(page.drawing)
    made += element("h3", "From one to the next")
    for step in page.steps:
        made += element("p", f"<b>{their(step.start)} → {their(step.goal)}</b>")
        made += _figures(step.lines)
    return made


def _rig(page: RigPage) -> str:
    """One rig."""
    name = f"{_flag(page.letter, page.colour)} · {their(page.name)}"
    made = element("h2", name)
    made += element("p", words(f"{page.optics} · {page.view}"))
    made += element("p", f"{words(page.total.words)} · worst finding: {badge(page.verdict)}")
    rows = (
        (words(p.slot), their(p.name), words(p.mass_words), words(p.price_words))
        for p in page.parts
    )
    foot = ("", "all parts", words(page.mass_words), words(page.total.words))
    head = ("", "part", "mass", "price")
    made += element("h3", "Parts and prices")
    made += table(head, rows, caption="Every piece of this rig", foot=foot, numbers=(2, 3))
    made += _figure(page.drawing)
    made += element("h3", "Figures") + _figures(page.figures)
    made += element("h3", "What the checks say")
    made += listed(
        (
            f'{badge(one)} {words(one.message)} <span class="quiet">({words(one.source)})</span>'
            for one in page.findings
        ),
        kind="said",
    )
    made += element("p", words(page.nights), kind="quiet")
    return made + _swaps(page) + _cheaper(page.cheaper)


def _figure(drawing: SkyDrawing | None) -> str:
    """The chart with its numbers and its credit."""
    if drawing is None:
        return ""
    rows = "".join(f"<dt>{words(a)}</dt><dd>{words(b)}</dd>\n" for a, b in drawing.rows)
    numbers = element("dl", rows) if rows else ""
    credit = element("figcaption", f"{numbers}{words(drawing.credit)}")
    return element("h3", words(drawing.caption)) + element("figure", chart(drawing) + credit)


def _figures(figures: tuple[Figure, ...]) -> str:
    """Labels and values, with what they mean."""
    rows = ""
    for figure in figures:
        meant = f' <span class="quiet">{words(figure.meaning)}</span>' if figure.meaning else ""
        rows += f"<dt>{words(figure.label)}</dt><dd>{words(figure.value)}{meant}</dd>\n"
    return element("dl", rows)


def _swaps(page: RigPage) -> str:
    """Every swap that leaves the rig no worse; how many do not."""
    if page.swaps_note:
        return element("h3", "Swaps") + element("p", words(page.swaps_note))
    if not page.swaps:
        return ""
    made = element("h3", "Swaps of one part, with which the rig still passes its checks")
    return made + "".join(_slot(slot) for slot in page.swaps)


def _slot(slot: SlotSwaps) -> str:
    """The swaps of one part."""
    failing = len(slot.lines) - len(slot.passing)
    caption = f"{words(slot.slot)}: in place of {their(slot.old)}"
    if not slot.passing:
        return element("p", f"{caption} none of {failing} passes.", kind="quiet")
    if failing:
        caption += f" ({failing} more would not pass)"
    rows = (
        (their(line.new), words(line.saving_words), words("; ".join(line.changes)))
        for line in slot.passing
    )
    return table(("take", "money", "what changes"), rows, caption=caption)


def _cheaper(cheaper: tuple[CheaperRig, ...]) -> str:
    """The cheapest rigs that still pass."""
    if not cheaper:
        return ""
    made = element("h3", "The cheapest that still passes")
    for one in cheaper:
        made += element("p", f"<b>{words(one.condition)}: {words(one.sentence)}</b>")
        if one.swaps:
            made += listed(their(swap) for swap in one.swaps)
        if one.changes:
            made += element("p", words("; ".join(one.changes)), kind="quiet")
    return made


def _flag(letter: str, colour: int) -> str:
    """The letter of a rig in its colour."""
    return f'<b style="color:{FRAME_INKS[colour]}">{words(letter)}</b>'
