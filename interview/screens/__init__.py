"""The screens: the only room that knows the toolkit. Import a screen where it is opened, not before."""
