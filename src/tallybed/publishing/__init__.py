"""From pages to a finished site: templates, assets, photographs, the swap into place, the preview."""
