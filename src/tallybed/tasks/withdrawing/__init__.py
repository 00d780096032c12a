"""What must go with a picture, an entry or a name, found before anything is taken out."""
