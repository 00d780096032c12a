"""From pages to the bytes of a finished site: templates, style sheets, and where each file lies."""
