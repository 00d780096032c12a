"""What every task stands on: a garden's folder and the day it speaks of, and what ends a command."""
