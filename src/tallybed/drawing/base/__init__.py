"""What every drawing is made with: SVG shapes, sizes and line weights, letters, glyphs, axes."""
