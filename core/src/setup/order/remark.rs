//! What there is to say of an order, in words and as the answers' file has it.

use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;

/// Something to think of before the work begins. Never more than advice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The operation that it is said of, from 0.
    pub operation: usize,
    /// The one that it gets in the way of.
    pub with: usize,
    /// What is amiss, the operations numbered from 1 as on the sheet.
    pub words: String,
    /// Why, and what helps.
    pub why: &'static str,
    /// Which of the two had better come first, where a change of order mends it.
    pub(super) first: Option<(usize, usize)>,
}

/// What there is to say of an order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Order {
    /// What to think of.
    pub remarks: Vec<Remark>,
    /// A better order: operations by their present places.
    pub proposed: Option<Vec<usize>>,
    /// The operation to rehearse on the off-cut first, and how.
    pub rehearse: Option<(usize, String)>,
}

impl Order {
    /// Whether there is nothing to say.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.remarks.is_empty() && self.rehearse.is_none()
    }

    /// As the answers' file has it.
    #[must_use]
    pub fn node(&self) -> Node {
        let whole = |at: usize| Node::Whole(i64::try_from(at).unwrap_or(i64::MAX));
        let warnings = self.remarks.iter().map(|remark| {
            Node::Object(Vec::from([
                ("operation".to_owned(), whole(remark.operation)),
                ("with".to_owned(), whole(remark.with)),
                ("words".to_owned(), Node::from(remark.words.as_str())),
                ("why".to_owned(), Node::from(remark.why)),
            ]))
        });
        let mut pairs = Vec::from([("warnings".to_owned(), Node::List(warnings.collect()))]);
        if let Some(places) = &self.proposed {
            let places = places.iter().map(|at| whole(*at)).collect();
            pairs.push(("proposed".to_owned(), Node::List(places)));
        }
        if let Some((at, words)) = &self.rehearse {
            let pair = [
                ("operation".to_owned(), whole(*at)),
                ("words".to_owned(), Node::from(words.as_str())),
            ];
            pairs.push(("rehearse".to_owned(), Node::Object(Vec::from(pair))));
        }
        Node::Object(pairs)
    }
}
