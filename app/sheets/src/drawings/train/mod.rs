//! The gears in mesh, as they stand on the banjo, seen from the gear cover.

mod draw;
mod letter;
mod set_out;

#[cfg(test)]
mod tests;

pub(crate) use draw::train;

/// Gears to draw: pairs of driver and driven from the first shaft on.
pub(crate) struct Train<'a> {
    pub(crate) pairs: &'a [(u16, u16)],
    pub(crate) idlers: &'a [Idler],
    /// What carries the first driver: "spindle".
    pub(crate) from: &'a str,
    /// What carries the last driven gear: "leadscrew".
    pub(crate) to: &'a str,
}

/// A gear between the driver and the driven of one pair, which changes only the direction.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Idler {
    /// Which pair it stands in, from 0.
    pub(crate) pair: usize,
    /// Its teeth, where they matter or are chosen.
    pub(crate) teeth: Option<u16>,
}
