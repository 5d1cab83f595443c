"""Exercises in words, and the trainer's lessons as plain lines."""
