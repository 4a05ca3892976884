//! Ways and places as the file has them.

use super::divided::Circle;
use crate::dividing::{At, Holes, Method, Pin, Place, Setting, Way};
use crate::quantity::show;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

type Pairs = Vec<(String, Node)>;

fn pair(key: &str, node: impl Into<Node>) -> (String, Node) {
    (key.to_owned(), node.into())
}

fn whole(n: impl Into<i64>) -> Node {
    Node::Whole(n.into())
}

impl Circle {
    /// The keys that every divided circle has: its ways, and what cuts how deep and how long, on
    /// the rim or on a face.
    pub(in crate::operation) fn keys(&self, on_face: bool) -> Pairs {
        let (depth, length) = self.arrangement.slides(on_face);
        const METHODS: [Method; 5] = [
            Method::Direct,
            Method::DirectHalfTooth,
            Method::Plain,
            Method::Compound,
            Method::Differential,
        ];
        let found = METHODS.iter().map(|method| pair(method.name(), self.found.by(*method)));
        vec![
            pair("way", u32::try_from(self.chosen).unwrap_or(0).saturating_add(1)),
            pair(
                "ways",
                Node::List(self.ways.iter().map(|way| way_node(way, !self.irregular())).collect()),
            ),
            pair("ways_found", Node::Object(found.collect())),
            pair("complete", self.complete),
            pair("locks", self.arrangement.locked_key()),
            pair("depth_by", depth),
            pair("length_by", length),
        ]
    }

    /// The absolute place of each division by the best way, the divisions in order.
    pub(in crate::operation) fn positions(&self) -> Node {
        let places = (0..self.into).filter_map(|moves| Some((moves, self.place(moves)?)));
        let mut places: Vec<_> = places.collect();
        places.sort_by_key(|(_, place)| place.division);
        let node = |(moves, place): (u32, Place)| {
            let mut pairs = vec![pair("division", place.division)];
            // A way that goes several times round comes to the divisions out of order.
            if moves != place.division {
                pairs.push(pair("after_moves", moves));
            }
            if let Some(degrees) = self.degrees(&place) {
                pairs.push(pair("angle", format!("{} deg", show::exact(degrees))));
            }
            pairs.extend(at_pairs(&place.at));
            if !place.error.is_zero() {
                let arcsec = crate::dividing::misplaced::arcsec(place.error);
                pairs.push(pair("error_arcsec", arcsec));
            }
            Node::Object(pairs)
        };
        Node::List(places.into_iter().map(node).collect())
    }
}

fn at_pairs(at: &At) -> Pairs {
    let pin = |pin: &Pin| {
        let mut pairs = vec![pair("turns", whole(pin.turns))];
        if pin.circle.is_some() {
            pairs.push(pair("hole", whole(pin.hole)));
        }
        pairs
    };
    match at {
        At::Tooth { tooth, .. } => vec![pair("tooth", *tooth)],
        At::HalfTooth { half_teeth, .. } => vec![pair("half_teeth", *half_teeth)],
        At::Pin(one) => pin(one),
        At::Pins { crank, plate } => {
            vec![pair("crank", Node::Object(pin(crank))), pair("plate", Node::Object(pin(plate)))]
        }
    }
}

/// One way; `even` where its divisions are.
pub(in crate::operation) fn way_node(way: &Way, even: bool) -> Node {
    let mut pairs = vec![
        pair("method", way.method().name()),
        pair("exact", way.exact),
        pair("worst_error_arcsec", way.worst_arcsec()),
    ];
    if even && !way.exact {
        pairs.push(pair("worst_error_share", way.worst_share()));
    }
    if !way.closing.is_zero() {
        pairs.push(pair("closing_error_arcsec", way.closing_arcsec()));
    }
    let move_node = |holes: Holes| {
        let pairs = vec![pair("holes", whole(holes.holes)), pair("circle", whole(holes.circle))];
        Node::Object(pairs)
    };
    let circle_node = |circle: Option<u16>| circle.map_or(Node::Null, whole);
    match way.setting {
        Setting::Direct { positions, step } | Setting::HalfTooth { positions, step } => {
            pairs.extend([pair("positions", whole(positions)), pair("step", step)]);
        }
        Setting::Plain { turns, holes, circle } => pairs.extend([
            pair("turns", turns),
            pair("holes", whole(holes)),
            pair("circle", circle_node(circle)),
        ]),
        Setting::Compound { turns, first, second, laps } => {
            pairs.extend([
                pair("turns", turns),
                pair("first", move_node(first)),
                pair("second", move_node(second)),
            ]);
            if laps > 1 {
                pairs.push(pair("laps", laps));
            }
        }
        Setting::Differential { turns, holes, circle, train } => {
            let pairs_of = train.pairs().iter();
            let gears = pairs_of.map(|(a, b)| Node::List(vec![whole(*a), whole(*b)])).collect();
            pairs.extend([
                pair("turns", turns),
                pair("holes", whole(holes)),
                pair("circle", circle_node(circle)),
                pair("gears", Node::List(gears)),
            ]);
            if let Ok(ratio) = train.ratio() {
                pairs.push(pair("ratio", ratio.to_string()));
            }
            pairs.push(pair("idlers", whole(train.idlers())));
            if train.idlers_lacking() > 0 {
                pairs.push(pair("idlers_lacking", whole(train.idlers_lacking())));
            }
        }
    }
    Node::Object(pairs)
}
