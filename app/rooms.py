"""The rooms of the window that come after the sheet, imported in one go beside it."""

from app.menus import Menus
from app.rig_strip import RigStrip
from app.side_panel import SidePanel
from app.status_line import StatusLine
from app.target_box import TargetBox
from app.top_bar import TopBar

__all__ = ["Menus", "RigStrip", "SidePanel", "StatusLine", "TargetBox", "TopBar"]
