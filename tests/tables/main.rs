//! What core works out, beside published tables and independent computations.

mod chart;
mod cutting;
mod dividing;
mod fits;
mod gearing;
mod gearing_search;
mod graduation;
mod holes;
mod more_gears;
mod tapers;
mod threads;
mod threads_cutting;
mod threads_limits;
mod threads_sizes;
mod threads_tapping;
mod threads_wires;
