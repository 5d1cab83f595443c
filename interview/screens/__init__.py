"""The Textual screens; the only folder that imports textual."""
