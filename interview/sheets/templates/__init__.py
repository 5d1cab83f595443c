"""Pages of the sheets as templates; a package only so that a wheel takes them along."""
