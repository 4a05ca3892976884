//! The best sets as the file has them.

use super::answer::MoreGears;
use crate::chart::Added;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

/// Of how many sets it is said what each gear brings.
const TOLD: usize = 20;

pub(super) fn json(more: &MoreGears) -> Vec<(String, Node)> {
    let found = &more.found;
    let whole = |n: u64| Node::Whole(i64::try_from(n).unwrap_or(i64::MAX));
    let key = |key: &str, node: Node| (key.to_owned(), node);
    let names = |places: &[usize]| {
        let names = places.iter().filter_map(|place| more.names.get(*place));
        Node::List(names.map(|name| Node::from(name.as_str())).collect())
    };
    let set = |(at, added): (usize, &Added)| {
        let gears = added.gears.iter().map(|teeth| u32::from(*teeth)).collect::<Vec<u32>>();
        let what = if more.circles { "circles" } else { "gears" };
        let mut of = vec![
            key(what, Node::from(gears)),
            key("gained", Node::from(found.gained)),
            key("of", Node::from(found.of)),
        ];
        if at < TOLD {
            of.push(key("brings", names(&added.gained)));
            if more.add > 1 {
                let alone = added.alone.iter().map(|alone| names(alone)).collect();
                of.push(key("alone", Node::List(alone)));
            }
        }
        Node::Object(of)
    };
    vec![
        key("best", Node::List(found.best.iter().enumerate().map(set).collect())),
        key("tried", whole(found.tried)),
        key("ties", whole(found.ties)),
        key("before", Node::from(found.before)),
        key("complete", Node::from(found.complete)),
    ]
}
