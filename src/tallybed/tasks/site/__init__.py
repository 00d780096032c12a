"""What a site is made of, up to its pages: for every task that looks at a garden as its pages do."""
