"""What the preview shows at once of a change, and the build that goes on apart from it."""
