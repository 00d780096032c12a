"""The preview's server: who may ask, what is answered, and its own pages."""
