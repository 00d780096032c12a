"""Small maps: what a visit touched, a month on a contact sheet, what each square gave."""
