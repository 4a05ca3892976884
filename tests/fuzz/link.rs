//! A setup link, and what stands behind its checksum.

#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| latheside_tests::doors::link(bytes));
