"""What a shelf file is refused with."""

import json
from typing import Any

import pytest

from core.errors import CoreError
from core.gear.shelf.shelf import Shelf
from core.record.record_file import record_of


def refusal(content: dict[str, Any] | bytes, model: type = Shelf) -> str:
    """Give the sentence that a file is refused with."""
    data = content if isinstance(content, bytes) else json.dumps(content).encode()
    with pytest.raises(CoreError) as caught:
        record_of(data, "mine.json", (model,), refused_as=CoreError)
    words = str(caught.value)
    assert words.startswith("mine.json")
    assert words.isprintable()
    assert len(words) < 300
    return words
