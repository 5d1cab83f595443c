"""The bay: the fitter's screen."""
