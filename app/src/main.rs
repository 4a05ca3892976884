//! The page.
#![allow(dead_code, unused_imports)]
mod drawings;

fn main() {}
