"""Contrast as WCAG 2.2 defines it, for tests; colours are ``#rrggbb``."""

from __future__ import annotations


def channels(colour: str) -> tuple[int, int, int]:
    """Return red, green and blue of ``#rrggbb``, 0 to 255."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def luminance(colour: str) -> float:
    """Return the relative luminance (WCAG 2.2, definition of that name)."""
    red, green, blue = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (channel / 255 for channel in channels(colour))
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio, 1 to 21 (WCAG 2.2, definition of that name)."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def blended(over: str, under: str, share: float) -> str:
    """Return what is seen of ``over`` at an opacity of ``share`` on ``under`` (W3C Compositing 1, over)."""
    mixed = (a * share + b * (1 - share) for a, b in zip(channels(over), channels(under), strict=True))
    return "#" + "".join(f"{round(each):02x}" for each in mixed)
