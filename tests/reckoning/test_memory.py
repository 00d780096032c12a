from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from tallybed.reckoning.memory import Remembering


@dataclass(frozen=True, kw_only=True, eq=False)
class Season(Remembering):
    name: str
    asked: list[str] = field(default_factory=list)

    @cached_property
    def total(self) -> int:
        self.asked.append("total")
        return 5

    def month(self, name: str) -> str:
        def work() -> str:
            self.asked.append(name)
            return f"{name} of {self.name}"

        return self.kept(("month", name), work)


def test_what_was_worked_out_is_kept_until_it_is_let_go() -> None:
    """Fails where a thing is worked out twice, or where what was let go still takes room."""
    one = Season(name="2026")
    assert [one.total, one.total, one.month("May"), one.month("May")] == [5, 5, "May of 2026", "May of 2026"]
    assert one.asked == ["total", "May"]
    one.forget()
    assert set(vars(one)) == {"name", "asked", "_memory"}
    assert [one.total, one.month("May"), one.name] == [5, "May of 2026", "2026"]
    assert one.asked == ["total", "May"] * 2
