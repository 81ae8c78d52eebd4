"""Colours, type and the style sheet of the three themes.

Imported before the first window is painted: no numpy and no dataclasses here.
Frame colours are those of Okabe & Ito 2008, told apart by people with any colour
vision; the deep-red theme has reds of equal hue instead, and dash and letter carry
the difference.
"""

from pathlib import Path
from typing import NamedTuple

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette

__all__ = ["DASHES", "THEMES", "Theme", "load_fonts", "palette", "scaled_font", "style_sheet"]

FAMILY = "B612"
BASE_PX = 12
_loaded: set[str] = set()
_FONTS = Path(__file__).resolve().parents[2] / "assets" / "fonts"

#: Dash patterns in logical pixels, stroke and gap by turns: full, dashed, dotted, dash-dotted.
DASHES: tuple[tuple[float, ...], ...] = ((), (11.0, 5.0), (2.0, 4.0), (13.0, 5.0, 2.0, 5.0))


class Theme(NamedTuple):
    """The colours of one theme, as ``#rrggbb``."""

    key: str
    title: str
    ground: str
    raised: str
    field: str
    rule: str
    text: str
    quiet: str
    accent: str
    on_accent: str
    good: str
    caution: str
    bad: str
    sheet_line: str
    plate: str
    frames: tuple[str, ...]
    marks: str
    red_only: bool = False
    invert_sky: bool = False


_OKABE_ITO = (
    "#e69f00",
    "#56b4e9",
    "#009e73",
    "#cc79a7",
    "#f0e442",
    "#d55e00",
    "#0072b2",
    "#b8b8b8",
)

THEMES: dict[str, Theme] = {
    theme.key: theme
    for theme in (
        Theme(
            key="dark",
            title="Dark",
            ground="#1b1a18",
            raised="#201e1b",
            field="#262420",
            rule="#35312a",
            text="#e9dfcc",
            quiet="#b8ae9c",
            accent="#d9a441",
            on_accent="#1b1a18",
            good="#8fc7a4",
            caution="#e3b35d",
            bad="#e88a72",
            sheet_line="#8f8674",
            plate="#141311",
            frames=_OKABE_ITO,
            marks="#cfc6b4",
        ),
        Theme(
            key="light",
            title="Light",
            ground="#f4eee2",
            raised="#fbf7ee",
            field="#fffdf7",
            rule="#d8cdb8",
            text="#2a251d",
            quiet="#5e5646",
            accent="#8a5d0a",
            on_accent="#fffaf0",
            good="#1f6b45",
            caution="#855000",
            bad="#a1301c",
            sheet_line="#6f6654",
            plate="#141311",
            frames=_OKABE_ITO,
            marks="#cfc6b4",
        ),
        Theme(
            key="deep-red",
            title="Deep red",
            ground="#000000",
            raised="#0d0000",
            field="#140000",
            rule="#3a0000",
            text="#ff4a36",
            quiet="#f0301e",
            accent="#f03a26",
            on_accent="#000000",
            good="#f0301e",
            caution="#ff4a36",
            bad="#ff4a36",
            sheet_line="#a01a0c",
            plate="#000000",
            frames=(
                "#ff3020", "#c82418", "#ff3020", "#c82418",
                "#ff3020", "#c82418", "#ff3020", "#c82418",
            ),
            marks="#d83020",
            red_only=True,
        ),
    )
}  # fmt: skip


def load_fonts(*faces: str) -> None:
    """Make the bundled typeface known to Qt: the faces named, or both."""
    for face in set(faces or ("Regular", "Bold")) - _loaded:
        _loaded.add(face)
        QFontDatabase.addApplicationFont(str(_FONTS / f"B612-{face}.otf"))


def scaled_font(scale: float, *, size_px: float = BASE_PX, bold: bool = False) -> QFont:
    """Give the typeface at a size in pixels times the user's text scale."""
    font = QFont(FAMILY)
    font.setPixelSize(max(6, round(size_px * scale)))
    font.setBold(bold)
    return font


def palette(theme: Theme) -> QPalette:
    """Give the palette from which Qt paints what no style rule reaches."""
    colours = QPalette()
    roles = {
        QPalette.ColorRole.Window: theme.ground,
        QPalette.ColorRole.Base: theme.field,
        QPalette.ColorRole.AlternateBase: theme.raised,
        QPalette.ColorRole.Button: theme.raised,
        QPalette.ColorRole.WindowText: theme.text,
        QPalette.ColorRole.Text: theme.text,
        QPalette.ColorRole.ButtonText: theme.text,
        QPalette.ColorRole.BrightText: theme.text,
        QPalette.ColorRole.ToolTipBase: theme.field,
        QPalette.ColorRole.ToolTipText: theme.text,
        QPalette.ColorRole.PlaceholderText: theme.quiet,
        QPalette.ColorRole.Highlight: theme.accent,
        QPalette.ColorRole.HighlightedText: theme.on_accent,
        QPalette.ColorRole.Link: theme.accent,
        QPalette.ColorRole.Light: theme.rule,
        QPalette.ColorRole.Midlight: theme.rule,
        QPalette.ColorRole.Mid: theme.rule,
        QPalette.ColorRole.Dark: theme.rule,
        QPalette.ColorRole.Shadow: theme.ground,
    }
    for role, colour in roles.items():
        colours.setColor(role, QColor(colour))
    for role in (QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
        colours.setColor(QPalette.ColorGroup.Disabled, role, QColor(theme.sheet_line))
    return colours


def style_sheet(theme: Theme, scale: float) -> str:
    """Give the style sheet of a theme at a text scale."""
    size = round(BASE_PX * scale)
    values = {
        **theme._asdict(),
        "size": size,
        "small": max(8, round(size * 0.9)),
        "title": round(size * 1.17),
        "pad": round(4 * scale),
        "wide": round(10 * scale),
        "family": FAMILY,
    }
    return _STYLE.format(**values)


_STYLE = """
* {{ font-family: "{family}"; font-size: {size}px; color: {text}; }}
QMainWindow, QDialog, QWidget#shell {{ background: {ground}; }}
QToolTip {{ background: {field}; color: {text}; border: 1px solid {rule}; padding: {pad}px; }}
QLabel[quiet="true"] {{ color: {quiet}; }}
QLabel[small="true"] {{ font-size: {small}px; }}
QLabel[small="true"] {{ color: {quiet}; font-size: {small}px; }}
QLabel[heading="true"] {{ color: {quiet}; font-weight: bold; }}
QLabel[name="true"] {{ color: {accent}; font-weight: bold; font-size: {title}px; }}
QLabel[level="caution"] {{ color: {caution}; }}
QLabel[level="bad"] {{ color: {bad}; }}
QLabel[level="good"] {{ color: {good}; }}
QLineEdit, QDoubleSpinBox, QComboBox {{
    background: {field}; border: 1px solid {rule}; border-radius: 3px;
    padding: {pad}px {wide}px; selection-background-color: {accent};
    selection-color: {on_accent};
}}
QLineEdit:focus, QDoubleSpinBox:focus, QComboBox:focus, QPushButton:focus,
QToolButton:focus, QTableView:focus {{ border: 1px solid {accent}; }}
QComboBox[choice="true"]::drop-down {{ border: none; width: {title}px; }}
QLineEdit[wrong="true"] {{ border: 1px solid {bad}; }}
QPushButton, QToolButton {{
    background: {raised}; border: 1px solid {rule}; border-radius: 3px;
    padding: {pad}px {wide}px;
}}
QPushButton:hover, QToolButton:hover {{ background: {field}; }}
QPushButton:checked, QToolButton:checked {{
    background: {accent}; color: {on_accent}; font-weight: bold;
}}
QPushButton:disabled, QToolButton:disabled {{ color: {sheet_line}; }}
QToolButton[flat="true"] {{ background: transparent; border: 1px solid transparent; }}
QToolButton[flat="true"]:hover {{ background: {field}; }}
QToolButton[flat="true"]:focus {{ border: 1px solid {accent}; }}
QToolButton[page="true"] {{
    background: transparent; color: {quiet}; border: 1px solid transparent; border-radius: 0px;
    border-bottom: 2px solid {rule}; padding: {pad}px;
}}
QToolButton[page="true"]:hover {{ color: {text}; }}
QToolButton[page="true"]:checked {{
    background: transparent; color: {text}; border-bottom: 2px solid {accent};
}}
QToolButton[page="true"]:focus {{ border: 1px solid {accent}; }}
QToolButton::menu-indicator {{ image: none; width: 0px; }}
QMenu {{ background: {raised}; border: 1px solid {rule}; padding: {pad}px; }}
QMenu::item {{ padding: {pad}px {wide}px; }}
QMenu::item:selected {{ background: {accent}; color: {on_accent}; }}
QMenu::item:disabled {{ color: {sheet_line}; }}
QMenu::separator {{ height: 1px; background: {rule}; margin: {pad}px; }}
QListView {{ background: {field}; border: 1px solid {rule}; outline: none; }}
QListView::item {{ padding: {pad}px; }}
QListView::item:selected {{ background: {accent}; color: {on_accent}; }}
QTableView {{ background: transparent; border: none; }}
QTreeView {{
    background: transparent; border: 1px solid {rule}; outline: none;
    selection-background-color: {field}; selection-color: {text};
}}
QTreeView:focus {{ border: 1px solid {accent}; }}
QTreeView#plain {{ border: 1px solid transparent; }}
QTreeView#plain:focus {{ border: 1px solid {accent}; }}
QTreeView::item {{ padding: 2px {pad}px; }}
QTreeView::item:selected {{ background: {field}; }}
QTreeView::item:selected:focus {{ background: {rule}; }}
QTableView[chooser="true"]::item:selected {{ background: {rule}; color: {text}; }}
QHeaderView, QHeaderView::section {{ background: transparent; color: {quiet}; border: none; }}
QHeaderView::section {{ border-bottom: 1px solid {rule}; padding: 2px; }}
QScrollArea {{ background: transparent; border: none; }}
QScrollArea > QWidget > QWidget {{ background: transparent; }}
QAbstractScrollArea::corner {{ background: transparent; border: none; }}
QScrollBar:vertical {{ background: {ground}; width: 10px; margin: 0; }}
QScrollBar:horizontal {{ background: {ground}; height: 10px; margin: 0; }}
QScrollBar::handle {{ background: {rule}; border-radius: 4px; min-height: 24px; min-width: 24px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QSplitter::handle {{ background: {rule}; image: none; }}
QDialogButtonBox {{ dialogbuttonbox-buttons-have-icons: 0; }}
QProgressBar {{
    background: {field}; border: 1px solid {rule}; border-radius: 3px; text-align: center;
}}
QProgressBar::chunk {{ background: {accent}; }}
QFrame#rule_h {{ background: {rule}; max-height: 1px; border: none; }}
QFrame#rule_v {{ background: {rule}; max-width: 1px; border: none; }}
"""
