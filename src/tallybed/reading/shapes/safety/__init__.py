"""What was sprayed or spread, and what a laboratory found in the soil."""
