//! A saved setup with whatever is still half typed in it, as a text that storage keeps.

use latheside_core::record::{Node, Record};
use latheside_core::setup::{self, Setup};
use latheside_core::shop::SHOP;

/// Something typed that is not understood yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The operation's place, as a number, or the path of a form of the shop.
    pub form: String,
    /// The key of the blank.
    pub key: String,
    /// What was typed.
    pub text: String,
}

impl Draft {
    fn node(&self) -> Node {
        Node::List(vec![
            Node::from(self.form.as_str()),
            Node::from(self.key.as_str()),
            Node::from(self.text.as_str()),
        ])
    }

    fn read(node: &Node) -> Option<Draft> {
        let Node::List(items) = node else { return None };
        let text = |at: usize| items.get(at).and_then(Node::as_text).map(str::to_owned);
        Some(Draft { form: text(0)?, key: text(1)?, text: text(2)? })
    }
}

/// A setup in the library.
#[derive(Clone, Debug, PartialEq)]
pub struct Saved {
    /// Its name in the address.
    pub id: String,
    /// The setup; its shop is its maker's where it came from elsewhere.
    pub setup: Setup,
    /// Whether it is worked for the person's own shop rather than the one it came with.
    pub own: bool,
    /// What is half typed in it.
    pub drafts: Vec<Draft>,
    /// When it was last used, in milliseconds since 1970.
    pub touched: f64,
}

impl Saved {
    /// A setup new to the library.
    pub fn new(id: String, setup: Setup, own: bool, touched: f64) -> Saved {
        Saved { id, setup, own, drafts: Vec::new(), touched }
    }

    /// As storage keeps it.
    pub fn to_text(&self) -> String {
        let pairs = [
            ("own", Node::from(self.own)),
            ("touched", Node::Whole(self.touched as i64)),
            ("drafts", Node::List(self.drafts.iter().map(Draft::node).collect())),
            ("setup", setup::write_node(&self.setup)),
        ];
        object(pairs)
    }

    /// What storage kept; none where it can't be read.
    pub fn from_text(id: &str, text: &str) -> Option<Saved> {
        let node: Node = serde_json::from_str(text).ok()?;
        Some(Saved {
            id: id.to_owned(),
            setup: setup::read_node(node.get("setup")?).ok()?,
            own: node.get("own") == Some(&Node::Flag(true)),
            drafts: drafts(&node),
            touched: match node.get("touched") {
                Some(Node::Whole(ms)) => *ms as f64,
                _ => 0.0,
            },
        })
    }

    /// Makes two operations change places, where there are both.
    pub fn swap(&mut self, a: usize, b: usize) {
        let len = self.setup.operations.len();
        if a < len && b < len {
            self.setup.operations.swap(a, b);
            self.shift(|n| {
                if n == a {
                    b
                } else if n == b {
                    a
                } else {
                    n
                }
            });
        }
    }

    /// Puts the operations into the order of these places; what isn't a whole order is none.
    pub fn arrange(&mut self, places: &[usize]) {
        let len = self.setup.operations.len();
        let whole = places.len() == len && (0..len).all(|at| places.contains(&at));
        if whole {
            let operations = places.iter().map(|at| self.setup.operations[*at].clone());
            self.setup.operations = operations.collect();
            self.shift(|n| places.iter().position(|at| *at == n).unwrap_or(n));
        }
    }

    /// Puts an operation in once more, after itself, where there is room.
    pub fn repeat(&mut self, at: usize) {
        if self.setup.operations.len() < setup::MOST_OPERATIONS
            && let Some(operation) = self.setup.operations.get(at).cloned()
        {
            self.shift(|n| if n > at { n + 1 } else { n });
            self.setup.operations.insert(at + 1, operation);
        }
    }

    /// Takes an operation out, with what was half typed in it.
    pub fn take_out(&mut self, at: usize) {
        if at < self.setup.operations.len() {
            self.setup.operations.remove(at);
            self.drafts.retain(|draft| draft.form != at.to_string());
            self.shift(|n| if n > at { n - 1 } else { n });
        }
    }

    /// Moves each draft along with its operation.
    fn shift(&mut self, to: impl Fn(usize) -> usize) {
        for draft in &mut self.drafts {
            if let Ok(at) = draft.form.parse::<usize>() {
                draft.form = to(at).to_string();
            }
        }
    }
}

/// The shop and what is half typed in it, as storage keeps them.
pub fn shop_to_text(shop: &Record, drafts: &[Draft]) -> String {
    let setup = Setup { shop: shop.clone(), ..Setup::default() };
    object([
        ("drafts", Node::List(drafts.iter().map(Draft::node).collect())),
        ("setup", setup::write_node(&setup)),
    ])
}

/// The shop that storage kept.
pub fn shop_from_text(text: &str) -> Option<(Record, Vec<Draft>)> {
    let node: Node = serde_json::from_str(text).ok()?;
    let setup = setup::read_node(node.get("setup")?).ok()?;
    debug_assert_eq!(setup.shop.spec(), &SHOP);
    Some((setup.shop, drafts(&node)))
}

fn drafts(node: &Node) -> Vec<Draft> {
    match node.get("drafts") {
        Some(Node::List(items)) => items.iter().filter_map(Draft::read).collect(),
        _ => Vec::new(),
    }
}

fn object<const N: usize>(pairs: [(&str, Node); N]) -> String {
    let pairs = pairs.into_iter().map(|(key, node)| (key.to_owned(), node)).collect();
    serde_json::to_string(&Node::Object(pairs)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What each released page wrote of a setup and of a shop.
    #[test]
    fn fault_06_what_the_first_pages_wrote_is_read() {
        let setup = r#"{"own":true,"touched":1772546709000,"drafts":[["0","lead","11 1/"]],"setup":{"format":"latheside-setup","version":1,"name":"Stop","note":"","shop":{},"operations":[{"kind":"thread","designation":"3/8 BSF","side":"outside","length":"22 mm"}]}}"#;
        let saved = Saved::from_text("k3x9", setup).unwrap();
        assert_eq!((saved.own, saved.touched, saved.drafts.len()), (true, 1_772_546_709_000.0, 1));
        assert_eq!(saved.setup.operations.len(), 1);
        assert!(saved.setup.made.is_empty());
        assert_eq!(saved.to_text(), setup, "and written as it was");
        let shop = r#"{"drafts":[],"setup":{"format":"latheside-setup","version":1,"name":"","note":"","shop":{"name":"3 mm bench lathe","lathe":{"leadscrew":"3 mm"}},"operations":[]}}"#;
        let (record, drafts) = shop_from_text(shop).unwrap();
        assert_eq!(shop_to_text(&record, &drafts), shop);
    }

    #[test]
    fn a_saved_setup_comes_back_with_what_was_half_typed() {
        let setup = setup::read_file(crate::EXAMPLE).unwrap();
        let mut saved = Saved::new("abc".into(), setup, true, 12.0);
        saved.drafts.push(Draft { form: "1".into(), key: "lead".into(), text: "11 1/".into() });
        assert_eq!(Saved::from_text("abc", &saved.to_text()), Some(saved.clone()));
        let text = shop_to_text(&saved.setup.shop, &saved.drafts);
        assert_eq!(shop_from_text(&text), Some((saved.setup.shop, saved.drafts)));
        assert_eq!(Saved::from_text("abc", "{}"), None);
    }

    fn with_drafts() -> Saved {
        let setup = setup::read_file(crate::EXAMPLE).unwrap();
        let mut saved = Saved::new("x".into(), setup, true, 0.0);
        for form in ["0", "2"] {
            saved.drafts.push(Draft { form: form.into(), key: form.into(), text: "?".into() });
        }
        saved
    }

    /// Each draft stays with the operation that it was typed into.
    #[test]
    fn drafts_move_with_their_operations() {
        let forms = |saved: &Saved| -> Vec<String> {
            saved.drafts.iter().map(|draft| draft.form.clone()).collect()
        };
        let mut s = with_drafts();
        s.swap(0, 1);
        assert_eq!(forms(&s), ["1", "2"]);
        s.swap(0, 0_usize.wrapping_sub(1));
        assert_eq!(forms(&s), ["1", "2"]);
        let mut s = with_drafts();
        s.arrange(&[2, 0, 1]);
        assert_eq!(forms(&s), ["1", "0"]);
        assert_eq!(s.setup.operations[0].kind.name, "cut");
        for broken in [&[0, 1][..], &[0, 0, 1], &[0, 1, 3]] {
            let before = s.clone();
            s.arrange(broken);
            assert_eq!(s, before);
        }
        let mut s = with_drafts();
        s.repeat(0);
        assert_eq!((forms(&s), s.setup.operations.len()), (vec!["0".into(), "3".into()], 4));
        s.take_out(0);
        assert_eq!((forms(&s), s.setup.operations.len()), (vec!["2".into()], 3));
    }
}
