//! Change gears.
