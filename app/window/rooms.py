"""The rooms of the window that come after the sheet, imported in one go beside it."""

from app.rig_strip.strip import RigStrip
from app.side_panel.panel import SidePanel
from app.target_box.box import TargetBox
from app.window.menus import Menus
from app.window.rig_sheet_file import RigSheetFile
from app.window.status_line import StatusLine
from app.window.top_bar import TopBar

__all__ = ["Menus", "RigSheetFile", "RigStrip", "SidePanel", "StatusLine", "TargetBox", "TopBar"]
