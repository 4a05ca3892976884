//! Something typed into a blank.

#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| latheside_tests::doors::entry(bytes));
