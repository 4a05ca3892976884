//! The chart's rows as the file has them.

use super::super::circle::way_node;
use super::answer::{ChartFound, Rows, name};
use crate::chart::{Divided, Lathe, Row, Standing, Turn};
use crate::gearing::Train;
use crate::quantity::show;
use crate::record::Node;
use crate::threads::Lead;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

type Pairs = Vec<(String, Node)>;

pub(super) fn json(found: &ChartFound) -> Pairs {
    let key = |key: &str, node: Node| (key.to_owned(), node);
    match &found.rows {
        Rows::Threads(threads) => {
            let node = |(row, turn): (&Row, Option<&Turn>)| {
                let train = turn.map(|turn| &turn.train).or(row.train.as_ref());
                let mut of = row_node(&threads.lathe, row, train, threads.feed);
                if let Some(turn) = turn {
                    of.push(key("changed", Node::from(u32::from(turn.changed))));
                }
                Node::Object(of)
            };
            let count = |standing: Standing| {
                let rows = threads.rows.iter().filter(|row| row.standing == standing);
                Node::Whole(i64::try_from(rows.count()).unwrap_or(i64::MAX))
            };
            vec![
                key("rows", Node::List(threads.shown().map(node).collect())),
                key("exact", count(Standing::Exact)),
                key("within_class", count(Standing::Within)),
                key("beyond_class", count(Standing::Beyond)),
                key("not_judged", count(Standing::Untold)),
                key("not_mountable", count(Standing::None)),
                key("complete", Node::from(threads.complete)),
            ]
        }
        Rows::Gears(gears) => {
            let spared = &gears.spared;
            let node = |(teeth, owned, used): &(u16, u8, u32)| {
                Node::Object(vec![
                    key("teeth", Node::from(u32::from(*teeth))),
                    key("owned", Node::from(u32::from(*owned))),
                    key("leads", Node::from(*used)),
                    key("spare", Node::from(spared.each.contains(teeth))),
                ])
            };
            let together: Vec<u32> = spared.together.iter().copied().map(u32::from).collect();
            vec![
                key("rows", Node::List(gears.used.iter().map(node).collect())),
                key("spare_together", Node::from(together)),
            ]
        }
        Rows::Divisions(rows) => {
            let node = |row: &Divided| {
                Node::Object(vec![
                    key("divisions", Node::from(row.into)),
                    key("way", row.way.as_ref().map_or(Node::Null, |way| way_node(way, true))),
                ])
            };
            vec![key("rows", Node::List(rows.iter().map(node).collect()))]
        }
    }
}

fn exact_lead(lead: Lead) -> Node {
    Node::from(show::exact_mm(lead.factor(), !lead.is_exact()))
}

fn row_node(lathe: &Lathe, row: &Row, train: Option<&Train>, feed: Option<bool>) -> Pairs {
    let train = train.map_or(Node::Null, |train| self::train(lathe, train, row));
    let mut of = vec![
        ("designation".to_owned(), Node::from(name(row, feed))),
        ("lead".to_owned(), exact_lead(row.lead)),
        ("train".to_owned(), train),
    ];
    if let Some(share) = row.share {
        of.push(("share".to_owned(), Node::from(share)));
    }
    of
}

/// As a thread's own answer has it.
fn train(lathe: &Lathe, train: &Train, row: &Row) -> Node {
    let pairs = train.pairs().iter().map(|pair| {
        Node::List(vec![Node::from(u32::from(pair.driver)), Node::from(u32::from(pair.driven))])
    });
    let (gearbox, _) = lathe.position(train);
    let mut of: Pairs = vec![
        ("pairs".to_owned(), Node::List(pairs.collect())),
        ("gearbox".to_owned(), Node::from(format!("{}/{}", gearbox.numer(), gearbox.denom()))),
    ];
    if let Ok(cut) = lathe.cuts(train) {
        of.push(("lead".to_owned(), exact_lead(cut)));
    }
    of.push(("error_ppm".to_owned(), Node::from(train.error_ppm())));
    of.push(("exact".to_owned(), Node::from(row.standing == Standing::Exact)));
    of.push(("mountable".to_owned(), Node::from(train.mountable)));
    if let Some(idlers) = lathe.idlers(train) {
        of.push(("idlers".to_owned(), Node::from(idlers)));
    }
    Node::Object(of)
}
