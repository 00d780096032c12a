"""The new site takes the old one's place, whole or not at all."""
