"""What must go with a picture, an entry or a name: found and shown before anything is taken out."""
