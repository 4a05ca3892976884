//! The page.
#![allow(dead_code)]
mod drawings;

fn main() {}
