"""A person's name in running text, and in a ``by`` that names several."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from itertools import zip_longest

_APART = r"(?:&nbsp;|%20|[\W_]){1,12}"
"""What may stand between two words of a name written otherwise: marks of Markdown, hyphens, signs."""
_FAR = 40
"""Signs before a name that are looked at for the end of the sentence before."""
_TELLING = 4
"""Letters that a name needs for such a likeness to mean anything; of a shorter one only capitals do."""
_BEGINS = re.compile(
    r"(?:\A\s*|\n\s*\n\s*|^[ \t]*(?:[-*+>]|\#+|[0-9]+\.)[ \t]+"
    r"|(?<!\bMr)(?<!\bMs)(?<!\bMrs)(?<!\bDr)(?<!\bSt)[.!?…][\"'”’)*_]*\s+)"
    r"[\"'“‘(*_]*\Z",
    re.MULTILINE,
)
"""What stands before a name that begins a sentence, a paragraph, a heading or an item of a list."""
_BETWEEN = re.compile(r"(\s*,\s*(?:and\s+)?|\s+and\s+|\s*&\s*|\s*;\s*)")


def position(text: str, start: int) -> tuple[int, int]:
    """Return line and column, from 1, of a place in a text."""
    return text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start)


class PersonName:
    """A name to look for: as it is written, capitals and all, and never within a longer word."""

    def __init__(self, name: str) -> None:
        """Raise ValueError where the name holds no letter."""
        words = name.split()
        if not any(sign.isalpha() for sign in name):
            raise ValueError(name)
        forms = {unicodedata.normalize(form, " ".join(words)) for form in ("NFC", "NFD")}
        spelt = (r"\s+".join(map(re.escape, form.split())) for form in sorted(forms))
        self._pattern = re.compile(rf"(?<!\w)(?:{'|'.join(spelt)})(?!\w)")
        parts = re.findall(r"[^\W_]+", unicodedata.normalize("NFC", name))
        letters = sum(map(len, parts))
        if letters < _TELLING:
            parts = [part.upper() for part in parts]
        alike = rf"(?<![^\W_]){_APART.join(map(re.escape, parts))}(?![^\W_])"
        anyhow = re.IGNORECASE if letters >= _TELLING else re.NOFLAG
        self._alike = re.compile(alike if letters > 1 else r"(?!)", anyhow)

    def within(self, text: str) -> bool:
        """Return whether the name stands in a text."""
        return bool(self._pattern.search(text))

    def lines(self, text: str) -> Iterator[tuple[int, int]]:
        """Yield line and column, from 1, of each place where the name stands."""
        for match in self._pattern.finditer(text):
            yield position(text, match.start())

    def alike(self, text: str) -> Iterator[tuple[int, int]]:
        """Yield line and column of what may be the name written otherwise: ``QUINCE``, ``marta-quince``."""
        held = [match.span() for match in self._pattern.finditer(text)]
        for match in self._alike.finditer(text):
            start, end = match.span()
            if not any(first < end and start < last for first, last in held):
                yield position(text, start)

    def held(self, text: str) -> bool:
        """Return whether the name stands in a text, be it written otherwise."""
        return self.within(text) or bool(self._alike.search(text))

    def replaced(self, text: str, instead: str) -> str:
        """Return a text with other words in the name's place."""
        return self._pattern.sub(lambda _match: instead, text)

    def replaced_in_prose(self, text: str, instead: str) -> str:
        """Return the same, with a capital where the name began a sentence."""

        def put(match: re.Match[str]) -> str:
            before = text[max(match.start() - _FAR, 0) : match.start()]
            return instead[:1].upper() + instead[1:] if _BEGINS.search(before) else instead

        return self._pattern.sub(put, text)

    def out_of(self, by: str) -> str:
        """Return a ``by`` without the name, and without the comma or "and" that joined it to the others.

        Empty where the name stood alone, or cannot be told apart from what stands with it.
        """
        parts = _BETWEEN.split(by.strip())
        people, joints = parts[::2], parts[1::2]
        number = next((n for n, one in enumerate(people) if self._pattern.fullmatch(one)), None)
        if number is not None:
            del people[number]
            if joints:
                # Of "N., O. and M." the "and" stays: it joins the last two, whoever they are.
                last = number == len(people) and number > 1
                del joints[number - 2 if last else max(number - 1, 0)]
            if len(joints) == 1:
                joints = [joints[0].replace(", and", " and")]
            rest = "".join(one + joint for one, joint in zip_longest(people, joints, fillvalue=""))
            return self.out_of(rest) if self.within(rest) else rest
        return "" if self.within(by) else by.strip()
