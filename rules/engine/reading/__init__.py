"""Reads the rule language out of TOML: strict, every fault found, each with its place."""
