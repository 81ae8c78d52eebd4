"""How a rig sheet looks in a browser and on paper: CSS without anything to fetch.

Colours stand out from white by at least 4.5 to 1; see `core.sheets.inks`.
"""

from core.sheets.inks import INK, LEVEL_INKS, LINE, QUIET, TINT

__all__ = ["STYLE"]

_FONT = 'B612, "DejaVu Sans", system-ui, sans-serif'
_BADGES = "\n".join(f".badge.{level} {{ color: {ink} }}" for level, ink in LEVEL_INKS.items())

STYLE = f"""
:root {{ color: {INK}; background: #fff; font: 16px/1.45 {_FONT} }}
body {{ max-width: 62rem; margin: 0 auto; padding: 1rem }}
h1, h2 {{ line-height: 1.2; overflow-wrap: anywhere }}
h2 {{ margin: 2.5rem 0 .3rem }}
h3 {{ margin: 1.4rem 0 .3rem; font-size: 1.05rem }}
p {{ margin: .3rem 0; overflow-wrap: anywhere }}
.quiet, caption, dt, thead th, figcaption {{
 color: {QUIET}; font-size: .86rem; font-weight: normal }}
caption {{ text-align: left }}
.sum {{ font-size: 1.3rem; font-weight: bold }}
.wide {{ overflow-x: auto }}
table {{ border-collapse: collapse; width: 100% }}
td, th {{ padding: .2rem .5rem .2rem 0; text-align: left; vertical-align: top }}
tbody th {{ font-weight: normal }}
tbody tr {{ border-top: 1px solid {LINE} }}
tfoot td, tfoot th {{ border-top: 2px solid {INK}; font-weight: bold }}
td.n, th.n {{ text-align: right; white-space: nowrap }}
ul {{ padding-left: 1.2rem; margin: .3rem 0 }}
.said {{ list-style: none; padding: 0 }}
li {{ margin: .35rem 0; overflow-wrap: anywhere }}
figure {{ margin: .5rem 0 }}
svg {{ width: 100%; max-width: 40rem; height: auto; border: 1px solid {INK} }}
svg text {{ font: bold 24px {_FONT}; text-anchor: middle;
 paint-order: stroke; stroke: #fff; stroke-width: 5px }}
dl {{ display: grid; grid-template-columns: max-content 1fr; gap: .15rem .8rem; margin: .4rem 0 }}
dd {{ margin: 0; overflow-wrap: anywhere }}
.caution {{ background: {TINT}; padding: .6rem .8rem; margin-top: 1.5rem }}
{_BADGES}
@media print {{
 body {{ max-width: none; padding: 0; font-size: 9pt }}
 section + section {{ break-before: page }}
 section.caution {{ break-before: auto }}
 tr, figure, li {{ break-inside: avoid }}
 h3 {{ break-after: avoid }}
}}
"""
