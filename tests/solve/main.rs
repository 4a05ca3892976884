//! Whole setups, a file in and its answers out, beside what is printed.

mod any;
mod cautions;
mod chart;
mod cut;
mod divide;
mod fit;
mod graduate;
mod hole;
mod make_plate;
mod order;
mod part_off;
mod read_dial;
mod size;
mod space;
mod taper;
mod thread;
