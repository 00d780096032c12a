"""The page that holds a season against ordinary rows, part by part."""
