//! Whatever is entered comes through the file and the link as it was written.

use latheside_core::record::Node;
use latheside_core::setup::{
    Setup, answers, read_file, read_link, read_node, write_file, write_link, write_node,
};
use latheside_core::shop::Shop;
use latheside_tests::forms;
use proptest::prelude::*;

/// What a link carries of a setup: of the shop, its name and what the operations are worked from.
pub(crate) fn carried(mut setup: Setup) -> Setup {
    for field in setup.shop.spec().fields {
        let wanted =
            |op: &latheside_core::operation::Operation| op.kind.from_shop.contains(&field.key);
        let any = setup.operations.is_empty() || setup.operations.iter().any(wanted);
        if !any && field.key != "name" {
            setup.shop.set(field.key, None);
        }
    }
    setup
}

/// Every string of a piece of JSON, in order.
fn strings<'a>(node: &'a Node, found: &mut Vec<&'a str>) {
    match node {
        Node::Text(text) => found.push(text),
        Node::List(items) => items.iter().for_each(|item| strings(item, found)),
        Node::Object(pairs) => pairs.iter().for_each(|(_, node)| strings(node, found)),
        _ => {}
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_file_comes_back_as_it_was_written(file in forms::setup(6)) {
        let setup = read_node(&file).map_err(|why| TestCaseError::fail(format!("{why}: {file:?}")))?;
        prop_assert_eq!(&write_node(&setup), &file);
        prop_assert_eq!(read_file(&write_file(&setup)), Ok(setup));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_link_comes_back_as_it_was_entered(file in forms::setup(3)) {
        let setup = read_node(&file).unwrap();
        let link = write_link(&setup);
        prop_assert!(link.len() <= 4096, "{} letters", link.len());
        let opened = read_link(&link).unwrap();
        let (carried, opened_node) = (write_node(&carried(setup)), write_node(&opened));
        let (mut before, mut after) = (Vec::new(), Vec::new());
        strings(&carried, &mut before);
        strings(&opened_node, &mut after);
        prop_assert_eq!(before, after);
        prop_assert_eq!(&opened_node, &carried);
        // Opened and sent on, it is the same link.
        prop_assert_eq!(write_link(&opened), link);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// What a link leaves at home is not needed.
    #[test]
    fn a_link_is_answered_like_the_setup(file in forms::setup(2)) {
        let mut setup = read_node(&file).unwrap();
        // What takes long has its own checks.
        let shop = Shop::new(setup.shop.clone());
        setup.operations.retain(|operation| operation.begin(&shop).is_none());
        prop_assert_eq!(answers(&carried(setup.clone())), answers(&setup));
    }
}

#[test]
fn an_ordinary_link_is_answered_like_the_setup() {
    for file in ["example.json", "inch.json", "common.json", "format.json"] {
        let whole = read_file(&super::golden::read(file)).unwrap();
        // Each operation alone: another may have brought along what it needs.
        for operation in &whole.operations {
            let setup = Setup { operations: vec![operation.clone()], ..whole.clone() };
            let sent = read_link(&write_link(&setup)).unwrap();
            assert_eq!(answers(&sent), answers(&setup), "{file}: {}", operation.kind.name);
        }
    }
}
