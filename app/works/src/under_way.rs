//! Answers that take long: worked between two frames, drawn as far as they have come, stopped at a tap.

use crate::watch;
use latheside_core::operation::{Answer, Long, Operation, Progress};
use latheside_core::record::Record;
use latheside_core::setup::Setup;
use latheside_core::shop::Shop;
use latheside_sheets as sheets;
use std::cell::RefCell;

/// How long the page is held at a time, ms: well within a frame.
const SLICE: f64 = 8.0;
/// How long until what has been done since is drawn, ms.
const LOOK: f64 = 200.0;
/// As many are remembered, the one used longest ago forgotten first.
const REMEMBERED: usize = 8;

thread_local! {
    static ALL: RefCell<Vec<Work>> = const { RefCell::new(Vec::new()) };
}

struct Work {
    operation: Operation,
    shop: Record,
    /// None where the answer stood at once.
    long: Option<Box<dyn Long>>,
    answer: Answer,
    progress: Progress,
    stopped: bool,
    /// Where it stands on the page.
    at: String,
    drawn: f64,
}

impl Work {
    fn begin(operation: Operation, shop: Record) -> Option<Work> {
        let begun = operation.begin(&Shop::new(shop.clone()))?;
        let (long, answer, of) = match begun {
            Ok(long) => (Some(long), Answer::default(), 1),
            Err(answer) => (None, answer, 0),
        };
        let progress = Progress { done: 0, of };
        let (at, stopped, drawn) = (String::new(), false, 0.0);
        Some(Work { operation, shop, long, answer, progress, stopped, at, drawn })
    }

    /// Goes on for so many ms.
    fn go_on(&mut self, ms: f64) {
        let from = watch::now();
        while let Some(long) = self.long.as_mut().filter(|_| !self.progress.finished()) {
            self.progress = long.go_on();
            if watch::now() - from >= ms {
                break;
            }
        }
    }

    /// Takes note of what stands so far; what is finished is kept as it is.
    fn look(&mut self) {
        if let Some(long) = &self.long {
            self.answer = long.so_far();
        }
        if self.progress.finished() {
            self.long = None;
        }
        self.drawn = watch::now();
    }

    fn html(&self, stale: Option<&str>, is_open: &dyn Fn(&str) -> bool) -> String {
        let mut html = String::new();
        if !self.progress.finished() {
            let Progress { done, of } = self.progress;
            html = sheets::under_way(done, of, self.stopped, &self.at).into_string();
        }
        let answer = self.so_far(stale, is_open);
        html.push_str(&format!("<div id=\"{}\">{answer}</div>", so_far(&self.at)));
        html
    }

    fn so_far(&self, stale: Option<&str>, is_open: &dyn Fn(&str) -> bool) -> String {
        sheets::answer(&self.answer, stale, &self.shop, self.folds(is_open)).into_string()
    }

    /// A chart has hundreds of rows: those that nobody looks at would take half of a keystroke's time.
    fn folds<'a>(&'a self, open: &'a dyn Fn(&str) -> bool) -> sheets::Folds<'a> {
        sheets::Folds { of: &self.at, open, later: true }
    }
}

/// The place of a work's answer on the page.
fn place(at: &str) -> String {
    format!("work-{at}")
}

/// The place of what of it stands so far.
fn so_far(at: &str) -> String {
    format!("so-far-{at}")
}

/// The work on an operation, begun where it isn't yet: none where it is answered at once.
fn with<R>(operation: &Operation, shop: &Record, what: impl FnOnce(&mut Work) -> R) -> Option<R> {
    if !operation.takes_long() {
        return None;
    }
    ALL.with_borrow_mut(|all| {
        let same = |work: &Work| work.operation == *operation && work.shop == *shop;
        let work = match all.iter().position(same) {
            Some(known) => all.remove(known),
            None => Work::begin(operation.clone(), shop.clone())?,
        };
        if all.len() >= REMEMBERED {
            all.remove(0);
        }
        all.push(work);
        all.last_mut().map(what)
    })
}

/// The answer to a setup's one operation as far as it is known, which goes on by itself; none where
/// it is answered at once.
pub(crate) fn answer(
    setup: &Setup,
    at: &str,
    unread: bool,
    is_open: &dyn Fn(&str) -> bool,
) -> Option<String> {
    let operation = setup.operations.first()?;
    let html = with(operation, &setup.shop, |work| {
        at.clone_into(&mut work.at);
        work.go_on(SLICE);
        work.look();
        let words = operation.sentence().plain();
        work.html(unread.then_some(words.as_str()), is_open)
    })?;
    // What stood there before has lost its place.
    ALL.with_borrow_mut(|all| {
        if let Some((_, before)) = all.split_last_mut() {
            before.iter_mut().filter(|work| work.at == at).for_each(|work| work.at.clear());
        }
    });
    watch::later(tick);
    Some(format!("<div id=\"{}\">{html}</div>", place(at)))
}

/// The whole answer where it takes no longer than so many ms; as far as it is known then, and
/// a word that there is more.
pub(crate) fn within(operation: &Operation, shop: &Record, ms: f64) -> Option<Answer> {
    with(operation, shop, |work| {
        // What was stopped stays as it is seen.
        if !work.stopped {
            work.go_on(ms);
            work.look();
        }
        let mut answer = work.answer.clone();
        if !work.progress.finished() {
            let Progress { done, of } = work.progress;
            answer.refused = Some(format!(
                "Not finished: {} % of it is done. Open the setup, wait for it, and come back.",
                done.saturating_mul(100) / of.max(1)
            ));
        }
        answer
    })
}

/// A frame's share of all that is to be seen.
fn tick() {
    let more = ALL.with_borrow_mut(|all| {
        let mut more = false;
        for work in all.iter_mut() {
            if work.progress.finished() || work.stopped || work.at.is_empty() {
                continue;
            }
            if !watch::stands(&place(&work.at)) {
                work.at.clear();
                continue;
            }
            work.go_on(SLICE);
            if work.progress.finished() {
                work.look();
                draw(work);
            } else if watch::now() - work.drawn > LOOK {
                work.look();
                draw_so_far(work);
            }
            more |= !work.progress.finished();
        }
        more
    });
    if more {
        watch::later(tick);
    }
}

fn draw(work: &Work) {
    put(&place(&work.at), |is_open| work.html(None, is_open));
}

/// Draws in a place; the folds that are open in it stay so.
fn put(place: &str, html: impl FnOnce(&dyn Fn(&str) -> bool) -> String) {
    let open = watch::open_folds(place);
    watch::put(place, &html(&|fold| open.iter().any(|other| other == fold)));
}

/// Draws all but the keys, so that a finger that is on one stays on it.
fn draw_so_far(work: &Work) {
    let Progress { done, of } = work.progress;
    watch::tell_progress(&place(&work.at), &sheets::how_far(done, of), done);
    if work.answer.found.is_some() {
        put(&so_far(&work.at), |is_open| work.so_far(None, is_open));
    }
}

/// A fold was opened: its rows come into it.
pub(crate) fn opened(fold: &str) {
    ALL.with_borrow(|all| {
        let rows = |work: &Work| sheets::rows_in(fold, &work.answer, work.folds(&|_| false));
        if let Some(rows) = all.iter().filter(|work| !work.at.is_empty()).find_map(rows) {
            watch::fill(fold, &rows.into_string());
        }
    });
}

/// A tap on what the works have drawn.
pub(crate) fn carry_out(what: &str) {
    let Some((what, at)) = what.split_once(' ') else { return };
    ALL.with_borrow_mut(|all| {
        let Some(work) = all.iter_mut().find(|work| work.at == at) else { return };
        if matches!(what, "stop" | "go-on") {
            work.stopped = what == "stop";
            work.look();
            draw(work);
        }
    });
    watch::later(tick);
}

#[cfg(test)]
mod tests {
    use super::*;
    use latheside_core::setup::{read_file, write_file};

    fn setup(operation: &str) -> Setup {
        let mut setup = read_file(latheside_kept::EXAMPLE).unwrap();
        let text = write_file(&setup);
        let (head, _) = text.split_once("\"operations\"").unwrap();
        setup = read_file(&format!("{head}\"operations\":[{operation}]}}")).unwrap();
        setup
    }

    #[test]
    fn a_chart_is_drawn_with_its_rows_and_one_at_once_is_left_alone() {
        let chart = setup("{\"kind\":\"chart\"}");
        let open = |fold: &str| ["rows-0", "rows-0-0"].contains(&fold);
        let html = answer(&chart, "0", false, &open).unwrap();
        assert!(html.starts_with("<div id=\"work-0\">"), "{html}");
        for part in ["every row (", "M10", "driver/driven", "data-do=\"rows 0\"", "d-leads"] {
            assert!(html.contains(part), "{part}");
        }
        // What is shut holds nothing until it is opened: then the same that stood there open.
        let shut = answer(&chart, "0", false, &|_| false).unwrap();
        assert!(shut.contains("every row (") && !shut.contains("<tr>"), "{shut}");
        let filled = |fold: &str| {
            let work = |work: &mut Work| {
                let rows = sheets::rows_in(fold, &work.answer, work.folds(&open));
                rows.map(sheets::Markup::into_string)
            };
            with(&chart.operations[0], &chart.shop, work).unwrap()
        };
        for fold in ["rows-0", "rows-0-0"] {
            let rows = filled(fold).unwrap();
            assert!(rows.contains("M10") && html.contains(&rows), "{fold}");
        }
        for other in ["rows-1", "rows-0-99", "rows-0-1-0", "figures-0", "rows--0", ""] {
            assert_eq!(filled(other), None, "{other}");
        }
        assert!(answer(&setup("{\"kind\":\"hold\"}"), "0", false, &|_| false).is_none());
    }

    #[test]
    fn what_is_refused_is_not_worked_on() {
        let chart = setup("{\"kind\":\"chart\",\"also\":[\"what\"]}");
        let html = answer(&chart, "0", false, &|_| false).unwrap();
        assert!(html.contains("class=\"refused\"") && !html.contains("under-way"), "{html}");
    }
}
