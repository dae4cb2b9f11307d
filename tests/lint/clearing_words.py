"""The words that no output may hold, from their one list, clearing_words.txt."""

import pathlib
import re

LIST = pathlib.Path(__file__).with_name("clearing_words.txt")
WORDS = [line for line in LIST.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
CLEARS = re.compile(rf"(?<!\w)({'|'.join(map(re.escape, WORDS))})(?!\w)", re.IGNORECASE)
