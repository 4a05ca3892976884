//! The answer on a screen.

use super::*;

/// How wide a line of the card is, in letters: a figure is as wide as three of them.
fn wide(line: &[latheside_core::operation::Span]) -> usize {
    use latheside_core::operation::Span;
    let width = |span: &Span| match span {
        Span::Figure(text) => text.chars().count() * 3,
        Span::Word(text) => text.chars().count(),
    };
    line.iter().map(width).sum()
}

#[test]
fn each_line_of_the_card_is_short() {
    for shop in [FULL, NO_GEARS, GEAR] {
        for into in (2..130).step_by(3).chain([254, 383, 9973]) {
            let operation = format!(r#"{{"kind":"divide","into":{into},"diameter":"32 mm"}}"#);
            if !text(&answer(shop, &operation), "refused").is_empty() {
                continue;
            }
            for line in card(shop, &operation).lines {
                assert!(wide(&line) <= 32, "{into}: {line:?}");
            }
        }
        let own = r#"{"kind":"divide","angles":["17 deg 30 min","152 deg 20 min"]}"#;
        assert!(card(shop, own).lines.iter().all(|line| wide(line) <= 32));
    }
}

#[test]
fn gears_and_plate_are_drawn_where_they_are_used() {
    let steps = steps_of(HEAD, r#"{"kind":"divide","into":127,"diameter":"32 mm"}"#);
    let gears = steps.iter().find(|step| step.title.starts_with("Gear the plate")).unwrap();
    assert!(matches!(gears.picture, Some(Picture::HeadTrain { .. })));
    let moves: Vec<&Step> = steps.iter().filter(|step| step.done == "Locked").collect();
    let (mut used, mut holes) = (0, Vec::new());
    for step in &moves {
        let Some(Picture::Plate { circle, spaces, hole, .. }) = &step.picture else {
            panic!("{:?}", step.title)
        };
        assert!(*spaces > 0 && hole < circle);
        used = usize::from(*circle);
        holes.push(usize::from(*hole));
    }
    // The pin goes on by the arms' spaces each time, round the plate.
    let step = holes[1];
    assert!(holes.iter().enumerate().all(|(k, hole)| *hole == k * step % used));
    let slack = steps.iter().find(|step| step.title == "Take up the slack").unwrap();
    assert!(matches!(slack.picture, Some(Picture::Rim { into: 127, at: 0, .. })));
}
