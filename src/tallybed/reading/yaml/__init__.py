"""YAML as nodes that know their place, and the headers of Markdown files."""
