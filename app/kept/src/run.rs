//! Where the work stands.

use latheside_core::record::{Node, Record, read, write};
use latheside_core::setup;

/// The place in a setup that is being carried out, and what was said on the way.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The operation.
    pub operation: usize,
    /// The step in it.
    pub step: usize,
    /// Whether all is done.
    pub finished: bool,
    /// When the last step was taken, in milliseconds since 1970.
    pub touched: f64,
    /// The step's title: by it the place is found again where the steps have changed.
    pub title: String,
    /// When the run began, by the clock on the wall.
    pub began: String,
    /// What was said of its steps.
    pub said: Vec<Record>,
    /// A note that is still half typed.
    pub draft: String,
}

impl Run {
    /// At the very beginning.
    pub fn start(now: f64, began: String) -> Run {
        Run {
            operation: 0,
            step: 0,
            finished: false,
            touched: now,
            title: String::new(),
            began,
            said: Vec::new(),
            draft: String::new(),
        }
    }

    /// Whether nothing has been done in it yet.
    pub fn is_new(&self) -> bool {
        !self.finished && (self.operation, self.step) == (0, 0) && self.said.is_empty()
    }

    /// The run for the setup's record.
    pub fn made(&self, ended: &str) -> Record {
        setup::made(&self.began, ended, &self.said)
    }

    /// Puts an entry on the present step into its record.
    pub fn say(&mut self, what: &str, text: &str) {
        self.said.push(setup::said(self.operation, &self.title, what, text));
    }

    /// As storage keeps it.
    pub fn to_text(&self) -> String {
        let whole = |n: usize| Node::Whole(i64::try_from(n).unwrap_or(0));
        let items = vec![
            whole(self.operation),
            whole(self.step),
            Node::from(self.finished),
            Node::Whole(self.touched as i64),
            Node::from(self.title.as_str()),
            Node::Object(write(&self.made(""))),
            Node::from(self.draft.as_str()),
        ];
        serde_json::to_string(&Node::List(items)).unwrap_or_default()
    }

    /// What storage kept.
    pub fn from_text(text: &str) -> Option<Run> {
        let Ok(Node::List(items)) = serde_json::from_str(text) else { return None };
        match items.as_slice() {
            [
                Node::Whole(operation),
                Node::Whole(step),
                Node::Flag(finished),
                Node::Whole(touched),
                // The first pages kept no more than the place.
                rest @ ..,
            ] => {
                let text = |at: usize| rest.get(at).and_then(Node::as_text).map(str::to_owned);
                let made = rest.get(1).and_then(|node| read(node, &setup::MADE, "run", &[]).ok());
                let began = made.as_ref().and_then(|made| made.text("began"));
                Some(Run {
                    operation: usize::try_from(*operation).ok()?,
                    step: usize::try_from(*step).ok()?,
                    finished: *finished,
                    touched: *touched as f64,
                    title: text(0).unwrap_or_default(),
                    began: began.unwrap_or_default().to_owned(),
                    said: made.map_or_else(Vec::new, |m| m.records("said").cloned().collect()),
                    draft: text(2).unwrap_or_default(),
                })
            }
            _ => None,
        }
    }

    /// The next place, given how many steps each operation has; finished after the last.
    pub fn next(&self, lens: &[usize], now: f64) -> Run {
        let mut run = self.clone();
        run.touched = now;
        run.step = run.step.saturating_add(1);
        while lens.get(run.operation).is_some_and(|len| run.step >= *len) {
            run.operation = run.operation.saturating_add(1);
            run.step = 0;
        }
        if run.operation >= lens.len() {
            run.finished = true;
            run.operation = self.operation;
            run.step = self.step;
        }
        run
    }

    /// The place before; the beginning stays the beginning.
    pub fn back(&self, lens: &[usize], now: f64) -> Run {
        let mut run = self.clone();
        run.touched = now;
        if run.finished {
            run.finished = false;
        } else if let Some(step) = run.step.checked_sub(1) {
            run.step = step;
        } else {
            let before = lens.get(..run.operation).unwrap_or(&[]);
            if let Some(operation) = before.iter().rposition(|len| *len > 0) {
                run.operation = operation;
                run.step = lens[operation] - 1;
            }
        }
        run
    }

    /// The same place in a setup that has changed since: the nearest that there still is.
    pub fn within(&self, lens: &[usize]) -> Run {
        let mut run = self.clone();
        while lens.get(run.operation).is_some_and(|len| *len == 0) {
            run.operation = run.operation.saturating_add(1);
            run.step = 0;
        }
        if run.operation >= lens.len() {
            run.operation = lens.iter().rposition(|len| *len > 0).unwrap_or(0);
            run.step = usize::MAX;
        }
        let len = lens.get(run.operation).copied().unwrap_or(0);
        run.step = run.step.min(len.saturating_sub(1));
        run
    }

    /// How long ago it was touched, to a person's measure.
    #[must_use]
    pub fn ago(&self, now: f64) -> String {
        let minutes = ((now - self.touched) / 60_000.0) as u64;
        match minutes {
            0 => "just now".to_owned(),
            1 => "a minute ago".to_owned(),
            2..=119 => format!("{minutes} minutes ago"),
            120..=2879 => format!("{} hours ago", minutes / 60),
            _ => format!("{} days ago", minutes / 1440),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_said_is_kept_with_the_place() {
        let mut run = Run::start(7.0, "2026-03-03 14:05:09".into());
        assert!(run.is_new());
        run.title = "cut 2 of 3".into();
        run.say("went-wrong", "0.05 under: the dial slipped");
        run.draft = "and the ".into();
        assert!(!run.is_new());
        assert_eq!(Run::from_text(&run.to_text()), Some(run.clone()));
        let made = run.made("2026-03-03 15:00:00");
        assert_eq!(made.text("ended"), Some("2026-03-03 15:00:00"));
        assert_eq!(made.records("said").count(), 1);
    }

    /// What each released page wrote of a run.
    #[test]
    fn fault_06_the_first_pages_run_is_read() {
        let run = Run::from_text("[2,7,false,1772546709000]").unwrap();
        assert_eq!((run.operation, run.step, run.finished), (2, 7, false));
        assert!(run.said.is_empty() && run.title.is_empty() && run.draft.is_empty());
        assert_eq!(Run::from_text(&run.to_text()), Some(run));
    }

    #[test]
    fn there_and_back_again_through_empty_operations() {
        let lens = [2, 0, 3, 0];
        let mut run = Run::start(0.0, "2026-03-03 14:05:09".into());
        let mut places = vec![(run.operation, run.step)];
        while !run.finished {
            run = run.next(&lens, 0.0);
            if !run.finished {
                places.push((run.operation, run.step));
            }
        }
        assert_eq!(places, [(0, 0), (0, 1), (2, 0), (2, 1), (2, 2)]);
        run = run.back(&lens, 0.0);
        for place in places.iter().rev().skip(1) {
            run = run.back(&lens, 0.0);
            assert_eq!((run.operation, run.step), *place);
        }
        assert_eq!(run.back(&lens, 0.0), run);
        assert_eq!(Run::from_text(&run.to_text()), Some(run.clone()));
        assert_eq!(
            Run { operation: 9, step: 9, ..run.clone() }.within(&lens),
            Run { operation: 2, step: 2, ..run.clone() }
        );
        assert_eq!(
            Run { operation: 1, step: 9, ..run.clone() }.within(&lens),
            Run { operation: 2, step: 0, ..run.clone() }
        );
        assert_eq!(run.within(&[]), Run { operation: 0, step: 0, ..run });
    }

    #[test]
    fn times_away_in_words() {
        let run = Run::start(5.0, String::new());
        for (ms, words) in [
            (10.0, "just now"),
            (61_000.0, "a minute ago"),
            (12.0 * 60_000.0, "12 minutes ago"),
            (3.0 * 3_600_000.0, "3 hours ago"),
            (72.0 * 3_600_000.0, "3 days ago"),
        ] {
            assert_eq!(run.ago(5.0 + ms), words);
        }
    }
}
