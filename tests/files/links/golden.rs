//! Links of every version keep opening, with whatever messengers do to them.
//!
//! `golden.tsv` holds a link a row: its name, the link, and the setup that it opens to, as a file
//! beside it or written out. Rows are only ever added. The ignored test `print` prints a row to add
//! for each form with a field that no row fills in; and for a row whose link is empty, that row.

use super::kept::carried;
use latheside_core::operation::KINDS;
use latheside_core::record::{Node, Record, Shape, Spec};
use latheside_core::setup::{LinkError, Setup, read_file, read_link, read_node, write_link};
use latheside_core::shop::SHOP;
use latheside_tests::forms;
use std::collections::BTreeSet;
use std::path::Path;

/// A row of the table.
pub(crate) struct Row {
    pub(crate) name: String,
    pub(crate) link: String,
    source: String,
}

impl Row {
    pub(crate) fn setup(&self) -> Setup {
        let text =
            if self.source.starts_with('{') { self.source.clone() } else { read(&self.source) };
        read_file(&text).unwrap_or_else(|why| panic!("{}: {why}", self.name))
    }
}

pub(crate) fn read(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("files/links").join(name);
    std::fs::read_to_string(path).expect(name)
}

pub(crate) fn rows() -> Vec<Row> {
    let table = read("golden.tsv");
    let row = |line: &str| match line.split('\t').collect::<Vec<_>>()[..] {
        [name, link, source] => Row { name: name.into(), link: link.into(), source: source.into() },
        _ => panic!("a row is a name, a link and a setup: {line}"),
    };
    table.lines().map(row).collect()
}

#[test]
#[ignore = "prints rows to add"]
#[expect(clippy::print_stdout, reason = "it is what it is for")]
fn print() {
    let rows = rows();
    for row in rows.iter().filter(|row| row.link.is_empty()) {
        println!("{}\t{}\t{}", row.name, write_link(&row.setup()), row.source);
    }
    let missing: BTreeSet<&str> = missing().iter().map(|(form, _)| *form).collect();
    let has_missing = |spec: &'static Spec| {
        let mut all = BTreeSet::new();
        asked(spec, &mut all);
        all.iter().any(|(form, _)| missing.contains(form))
    };
    let mut files = Vec::new();
    if has_missing(&SHOP) {
        files.push(("the shop", forms::full(&SHOP), Vec::new()));
    }
    for kind in KINDS.iter().filter(|kind| has_missing(kind.spec)) {
        let Node::Object(mut pairs) = forms::full(kind.spec) else { continue };
        pairs.insert(0, ("kind".to_owned(), Node::from(kind.name)));
        files.push((kind.spec.name, Node::Object(Vec::new()), vec![Node::Object(pairs)]));
    }
    for (at, (name, shop, operations)) in files.into_iter().enumerate() {
        let name = format!("{name}, every blank (row {})", rows.len() + at + 1);
        let file = forms::file(Node::from(name.as_str()), Node::from(""), shop, operations);
        let setup = read_node(&file).unwrap();
        println!("{name}\t{}\t{}", write_link(&setup), serde_json::to_string(&file).unwrap());
    }
}

/// What a link of this row carries. Steps came to be worked from the indicators and the holders too after the
/// first rows were made: where a row's link has none, it is opened without.
fn carried_then(row: &Row) -> Setup {
    let mut setup = carried(row.setup());
    let opened = read_link(&row.link);
    for section in ["indicators", "holding"] {
        if opened.as_ref().is_ok_and(|opened| opened.shop.get(section).is_none()) {
            setup.shop.set(section, None);
        }
    }
    setup
}

#[test]
fn fault_13_each_opens_to_its_setup() {
    let mut names = BTreeSet::new();
    for row in rows() {
        assert!(names.insert(row.name.clone()), "{} stands twice", row.name);
        assert_eq!(read_link(&row.link), Ok(carried_then(&row)), "{}", row.name);
    }
    assert!(names.len() >= 15, "rows are only ever added: {}", names.len());
}

#[test]
fn fault_13_messengers_may_do_what_they_do() {
    for row in rows().into_iter().step_by(4) {
        let Row { name, link, .. } = &row;
        let setup = Ok(carried_then(&row));
        let (start, end) = link.split_at(link.len() / 2);
        let broken = |by: &str| {
            let letters: Vec<char> = link.chars().collect();
            letters.chunks(20).map(String::from_iter).collect::<Vec<_>>().join(by)
        };
        for sent in [
            format!("https://example.org/bench/#{link}"),
            format!("http://192.168.0.7:8080/a/b/?lang=de#{link}"),
            format!("https://example.org/bench/%23{link}"),
            format!("#{link}"),
            format!("  {link}\n"),
            format!("#{link}."),
            format!("#{link},"),
            format!("(#{link})"),
            format!("[#{link}]"),
            format!("<https://example.org/#{link}>"),
            format!("\"{link}\""),
            format!("“#{link}”"),
            format!("#{link}&utm_source=mail"),
            format!("#{start} {end}"),
            format!("#{start}\r\n{end}"),
            format!("#{start}\u{200b}{end}"),
            format!("#{start}\u{ad}{end}\u{2060}"),
            format!("#{}", broken("\n")),
            format!("#{}", broken("\r\n  ")),
            format!("Here is setup #2 for you: https://example.org/#{link}"),
            format!("https://example.org/#{link} Tell me how it goes."),
            format!("https://example.org/#{link}\n\nRegards from number 4 #lathe"),
            format!("https://example.org/#{}\nand thanks", broken("\n")),
        ] {
            assert_eq!(read_link(&sent), setup, "{name}: {sent}");
        }
    }
}

#[test]
fn what_is_no_link_says_so() {
    let newer = Err(LinkError::Newer);
    for (text, refused) in [
        ("", Err(LinkError::NotALink)),
        ("hello", Err(LinkError::NotALink)),
        ("https://example.org/", Err(LinkError::NotALink)),
        ("https://example.org/#setups", Err(LinkError::NotALink)),
        ("https://files1.example.org/#bench/3", Err(LinkError::NotALink)),
        ("#s.AAAA", Err(LinkError::NotALink)),
        ("#sx.AAAA", Err(LinkError::NotALink)),
        ("#s2.AAAA", newer.clone()),
        ("https://example.org/#s17.AAAA", newer.clone()),
        ("#s999.AAAA", newer),
        ("#s1.", Err(LinkError::Damaged)),
        ("#s1.AAAA", Err(LinkError::Damaged)),
        ("#s1.AAAAAAAA", Err(LinkError::Damaged)),
        ("#s1.ÄÖÜ", Err(LinkError::Damaged)),
    ] {
        assert_eq!(read_link(text), refused, "{text}");
    }
    let long = format!("#s1.{}", "A".repeat(4097));
    assert_eq!(read_link(&long), Err(LinkError::TooLong));
    assert_eq!(read_link(&"word ".repeat(10_000)), Err(LinkError::TooLong));
    let sentence = |why: LinkError| why.to_string();
    assert_eq!(sentence(LinkError::NotALink), "this is no setup link: it holds no “#s1.” part");
    assert_eq!(
        sentence(LinkError::TooLong),
        "this link is longer than 4096 letters: ask for the file instead"
    );
    assert_eq!(
        sentence(LinkError::Newer),
        "this link was made by a newer Latheside: update, then open it again"
    );
    assert_eq!(
        sentence(LinkError::Damaged),
        "this link is damaged: some letters are missing or changed. Ask for it again, or for the file"
    );
}

/// Notes each field that is filled in.
fn filled(record: &Record, found: &mut BTreeSet<(&'static str, &'static str)>) {
    use latheside_core::record::Value;
    fn within(value: &Value, found: &mut BTreeSet<(&'static str, &'static str)>) {
        match value {
            Value::Record(record) => filled(record, found),
            Value::List(items) => items.iter().for_each(|item| within(item, found)),
            _ => {}
        }
    }
    for (field, value) in record.iter() {
        if let Some(value) = value {
            found.insert((record.spec().name, field.key));
            within(value, found);
        }
    }
}

/// Each field that a form has.
fn asked(spec: &'static Spec, found: &mut BTreeSet<(&'static str, &'static str)>) {
    fn within(shape: &'static Shape, found: &mut BTreeSet<(&'static str, &'static str)>) {
        match shape {
            Shape::Record(spec) => asked(spec, found),
            Shape::List(inner, ..) | Shape::Pair(inner) | Shape::Named(inner, _) => {
                within(inner, found)
            }
            _ => {}
        }
    }
    for field in spec.fields {
        found.insert((spec.name, field.key));
        within(&field.shape, found);
    }
}

/// Each field that no row fills in.
fn missing() -> BTreeSet<(&'static str, &'static str)> {
    let (mut wanted, mut found) = (BTreeSet::new(), BTreeSet::new());
    asked(&SHOP, &mut wanted);
    KINDS.iter().for_each(|kind| asked(kind.spec, &mut wanted));
    for row in rows() {
        let setup = carried(row.setup());
        filled(&setup.shop, &mut found);
        setup.operations.iter().for_each(|operation| filled(&operation.entries, &mut found));
    }
    wanted.difference(&found).copied().collect()
}

#[test]
fn every_field_of_every_form_is_in_some_row() {
    let missing = missing();
    assert!(
        missing.is_empty(),
        "no row fills in {missing:?}; `cargo test -q -p latheside-tests --test files print -- --ignored \
         --nocapture` prints rows to add to tests/files/links/golden.tsv"
    );
}
