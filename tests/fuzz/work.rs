//! Any operations in any shop, answered.

#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| latheside_tests::doors::work(bytes));
