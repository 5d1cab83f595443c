"""A general rule engine: language, truth, ledger, bounds and trace. It knows nothing of golf."""
