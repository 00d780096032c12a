"""What a site is made of, up to its pages, and what is wrong with it."""
