//! Checks of Latheside from outside.
