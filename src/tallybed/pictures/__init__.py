"""Photographs and pictures to share: found, developed, stripped of notes, kept from build to build."""
