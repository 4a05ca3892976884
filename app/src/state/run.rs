//! Where the work stands.

use latheside_core::record::Node;

/// The place in a setup that is being carried out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Run {
    /// The operation.
    pub(crate) operation: usize,
    /// The step in it.
    pub(crate) step: usize,
    /// Whether all is done.
    pub(crate) finished: bool,
    /// When the last step was taken, in milliseconds since 1970.
    pub(crate) touched: f64,
}

impl Run {
    /// At the very beginning.
    pub(crate) fn start(now: f64) -> Run {
        Run { operation: 0, step: 0, finished: false, touched: now }
    }

    /// As storage keeps it.
    pub(crate) fn to_text(self) -> String {
        let whole = |n: usize| Node::Whole(i64::try_from(n).unwrap_or(0));
        let items = vec![
            whole(self.operation),
            whole(self.step),
            Node::from(self.finished),
            Node::Whole(self.touched as i64),
        ];
        serde_json::to_string(&Node::List(items)).unwrap_or_default()
    }

    /// What storage kept.
    pub(crate) fn from_text(text: &str) -> Option<Run> {
        let Ok(Node::List(items)) = serde_json::from_str(text) else { return None };
        match items.as_slice() {
            [
                Node::Whole(operation),
                Node::Whole(step),
                Node::Flag(finished),
                Node::Whole(touched),
            ] => Some(Run {
                operation: usize::try_from(*operation).ok()?,
                step: usize::try_from(*step).ok()?,
                finished: *finished,
                touched: *touched as f64,
            }),
            _ => None,
        }
    }

    /// The next place, given how many steps each operation has; finished after the last.
    pub(crate) fn next(self, lens: &[usize], now: f64) -> Run {
        let mut run = Run { touched: now, ..self };
        run.step = run.step.saturating_add(1);
        while lens.get(run.operation).is_some_and(|len| run.step >= *len) {
            run.operation = run.operation.saturating_add(1);
            run.step = 0;
        }
        if run.operation >= lens.len() {
            return Run { finished: true, touched: now, ..self };
        }
        run
    }

    /// The place before; the beginning stays the beginning.
    pub(crate) fn back(self, lens: &[usize], now: f64) -> Run {
        if self.finished {
            return Run { finished: false, touched: now, ..self };
        }
        let mut run = Run { touched: now, ..self };
        if let Some(step) = run.step.checked_sub(1) {
            run.step = step;
            return run;
        }
        let before = lens.get(..run.operation).unwrap_or(&[]);
        match before.iter().rposition(|len| *len > 0) {
            Some(operation) => Run { operation, step: lens[operation] - 1, ..run },
            None => run,
        }
    }

    /// The same place in a setup that has changed since: the nearest that there still is.
    pub(crate) fn within(self, lens: &[usize]) -> Run {
        let mut run = self;
        while lens.get(run.operation).is_some_and(|len| *len == 0) {
            run.operation = run.operation.saturating_add(1);
            run.step = 0;
        }
        match lens.get(run.operation) {
            Some(len) if run.step < *len => run,
            Some(len) => Run { step: len.saturating_sub(1), ..run },
            None => {
                let last = lens.iter().rposition(|len| *len > 0);
                last.map_or(Run { operation: 0, step: 0, ..run }, |operation| Run {
                    operation,
                    step: lens[operation] - 1,
                    ..run
                })
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back_again_through_empty_operations() {
        let lens = [2, 0, 3, 0];
        let mut run = Run::start(0.0);
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
        assert_eq!(Run::from_text(&run.to_text()), Some(run));
        assert_eq!(
            Run { operation: 9, step: 9, ..run }.within(&lens),
            Run { operation: 2, step: 2, ..run }
        );
        assert_eq!(
            Run { operation: 1, step: 9, ..run }.within(&lens),
            Run { operation: 2, step: 0, ..run }
        );
        assert_eq!(run.within(&[]), Run { operation: 0, step: 0, ..run });
    }
}
