"""YAML as nodes that know their file, line and column, and the headers of Markdown files."""
