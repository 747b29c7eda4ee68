"""Words without case and accents, to be looked for: "lucja" finds "Łucja"."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

_WITHOUT_PARTS = str.maketrans(
    {
        "ł": "l",
        "ø": "o",
        "đ": "d",
        "ð": "d",
        "ħ": "h",
        "ŧ": "t",
        "ı": "i",
        "þ": "th",
        "æ": "ae",
        "œ": "oe",
    }
)
"""Letters that Unicode does not take apart into a plain letter and a mark."""
_REMEMBERED = 8192
"""Lists are searched and sorted by the same names again and again."""


@lru_cache(maxsize=_REMEMBERED)
def folded(words: str) -> str:
    """`words` in plain lower-case letters, as far as their letters have a plain form."""
    parts = unicodedata.normalize("NFKD", words.casefold())
    plain = "".join(letter for letter in parts if not unicodedata.combining(letter))
    return plain.translate(_WITHOUT_PARTS)
