"""The records that the stages share: frozen, exact, and knowing nothing of the stages."""
