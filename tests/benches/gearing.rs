//! b
fn main() {}
