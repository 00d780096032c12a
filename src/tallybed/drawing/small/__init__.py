"""Small maps: what a visit touched, and a month on a contact sheet."""
