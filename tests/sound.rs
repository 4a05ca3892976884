//! What may be asked of any answer, whatever was entered: it can be read, on the screen and as JSON, and
//! nobody waits for it.

use latheside_core::operation::{Answer, Card, FACTS_IN_SIGHT, Operation, Span};
use latheside_core::record::Node;
use latheside_core::setup::{Setup, answers, order, write_file};
use latheside_core::shop::{Shop, contradictions};
use std::time::Duration;

use crate::solved::items;

/// Three times the two seconds that anybody should wait for one answer.
const GROSS: Duration = Duration::from_secs(6);

/// Work that takes longer than so many moments isn't waited for.
const MOMENTS: usize = 300;

/// What a float leaves in words that is no number, and a value written out for its maker.
const SPOILT: [&str; 4] = ["NaN", "inf", "None", "Some("];

/// Does it, and holds it against gross excess.
///
/// # Panics
///
/// Where it took far longer than anybody would wait.
pub fn in_time<T>(of: &str, work: impl FnOnce() -> T) -> T {
    within(GROSS, of, work)
}

fn within<T>(limit: Duration, of: &str, work: impl FnOnce() -> T) -> T {
    let from = spent();
    let done = work();
    let took = spent().saturating_sub(from);
    assert!(took < limit, "{of} took {:.1} s", took.as_secs_f64());
    done
}

/// What this thread has worked so far: a machine that is busy with other things makes nothing slow.
#[cfg(unix)]
fn spent() -> Duration {
    use rustix::time::{ClockId, clock_gettime};
    let clock = clock_gettime(ClockId::ThreadCPUTime);
    let seconds = Duration::from_secs(u64::try_from(clock.tv_sec).unwrap_or(0));
    seconds + Duration::from_nanos(u64::try_from(clock.tv_nsec).unwrap_or(0))
}

/// By the clock on the wall, where threads have none.
#[cfg(not(unix))]
fn spent() -> Duration {
    use std::sync::LazyLock;
    use std::time::Instant;
    static BEGAN: LazyLock<Instant> = LazyLock::new(Instant::now);
    BEGAN.elapsed()
}

/// Reads what people are told, in the knowledge of what they entered themselves.
struct Reader {
    /// In which of the spoilt words nothing is to be seen: they stand in an entry.
    own: String,
}

impl Reader {
    fn of(setup: &Setup) -> Reader {
        // The screen marks figures with stars, and takes out those of an entry.
        Reader { own: write_file(setup).replace('*', "").to_lowercase() }
    }

    /// Not one word that a float has spoilt.
    fn unspoilt(&self, text: &str, of: &str) {
        for spoilt in SPOILT {
            let seen = has_word(text, spoilt) && !self.own.contains(&spoilt.to_lowercase());
            assert!(!seen, "{of}: {text}");
        }
    }

    /// Figures and words that somebody reads: not empty, and unspoilt.
    fn readable(&self, text: &str, of: &str) {
        assert!(!text.trim().is_empty(), "{of} is empty");
        self.unspoilt(text, of);
    }

    /// Nothing in it but what JSON can say: no number that is none, and no null but the circle of whole
    /// turns, where no hole is counted, and a row of a chart for which there is no train or way.
    fn whole(&self, node: &Node, path: &str) {
        match node {
            Node::Null => {
                let may_be = [".circle", "].train", "].way"].iter().any(|end| path.ends_with(end));
                assert!(may_be, "{path} is null");
            }
            Node::Float(x) => assert!(x.is_finite(), "{path} is {x}"),
            Node::Text(text) => self.unspoilt(text, path),
            Node::List(items) => {
                for (at, item) in items.iter().enumerate() {
                    self.whole(item, &format!("{path}[{at}]"));
                }
            }
            Node::Object(pairs) => {
                for (at, (key, node)) in pairs.iter().enumerate() {
                    let twice = pairs[..at].iter().any(|(k, _)| k == key);
                    assert!(!twice, "{path}.{key} stands twice");
                    self.whole(node, &format!("{path}.{key}"));
                }
            }
            Node::Flag(_) | Node::Whole(_) => {}
        }
    }

    fn screen(&self, answer: &Answer) {
        let Some(found) = &answer.found else {
            match &answer.refused {
                Some(why) => self.readable(why, "a refusal"),
                None => assert!(
                    !answer.lacking.is_empty(),
                    "no answer, no refusal, and nothing lacking"
                ),
            }
            return;
        };
        self.card(&found.card());
        if let Some(table) = found.csv() {
            self.readable(&table, "the table's file");
        }
        for caution in &answer.cautions {
            self.readable(caution, "a caution");
        }
        for why in &answer.why {
            self.readable(&why.formula, "a formula");
            self.readable(&why.values, &why.formula);
            self.readable(&why.source, &why.formula);
        }
        let steps = found.steps();
        assert!(steps.get(steps.len()).is_none(), "a step after the last");
        for at in 0..steps.len() {
            let step = steps
                .get(at)
                .unwrap_or_else(|| panic!("step {at} of {} is not there", steps.len()));
            self.readable(&step.title, "a title");
            self.readable(step.done, "a button");
            let bare = !step.figure.is_empty() && step.label.is_empty();
            assert!(!bare, "{}: a bare figure", step.title);
            self.unspoilt(&step.figure, &step.title);
            self.unspoilt(&step.label, &step.title);
            assert!(!step.lines().is_empty(), "{}: nothing is to be done", step.title);
            for line in step.lines() {
                let text: String = line.iter().map(Span::text).collect();
                self.readable(&text, &step.title);
            }
            for say in &step.say {
                self.readable(say, &step.title);
                let paired = say.matches('*').count() % 2 == 0 && !say.contains("**");
                assert!(paired, "{}: a figure's stars aren't paired: {say}", step.title);
            }
            if let Some(back) = steps.back(at) {
                self.readable(&back, &step.title);
            }
        }
    }

    fn card(&self, card: &Card) {
        for span in card.lines.iter().flatten() {
            let (Span::Figure(text) | Span::Word(text)) = span;
            assert!(!text.is_empty(), "an empty run of text");
            self.unspoilt(text, "a line");
        }
        if let Some((_, verdict)) = &card.verdict {
            self.readable(verdict, "the verdict");
        }
        for fact in &card.facts {
            self.readable(&fact.label, "a label");
            self.readable(&fact.value, &fact.label);
        }
        let (seen, folded) = card.in_sight();
        let all = seen.len() + folded.len() == card.facts.len();
        assert!(seen.len() <= FACTS_IN_SIGHT && all, "{} facts in sight", seen.len());
        assert!(card.others.len() <= 40, "{} other ways", card.others.len());
        for other in &card.others {
            self.readable(&other.line, card.others_title);
            self.unspoilt(&other.note, &other.line);
        }
        for row in card.table.iter().flat_map(|table| table.rows.iter().chain(&table.in_short)) {
            self.readable(&row.name, "a row");
            self.unspoilt(&row.setting, &row.name);
            self.unspoilt(&row.note, &row.name);
        }
    }

    fn blanks(&self, operation: &Operation, shop: &Shop) {
        let _ = operation.sentence();
        for field in operation.kind.spec.fields {
            for typed in ["", "M", "1/4", "ü", "\u{1f529}"] {
                for one in operation.suggest(field.key, typed, shop) {
                    self.readable(&one, field.label);
                }
            }
        }
    }

    /// Takes out of a setup what takes long; what it comes to so far is looked at.
    fn begun(&self, mut setup: Setup) -> Setup {
        let shop = Shop::new(setup.shop.clone());
        setup.operations.retain(|operation| {
            let name = operation.kind.name;
            let Some(Ok(mut work)) = operation.begin(&shop) else { return true };
            let finished = (0..MOMENTS)
                .any(|_| in_time(&format!("{name}, a moment"), || work.go_on().finished()));
            let answer = work.so_far();
            if answer.found.is_some() || answer.refused.is_some() {
                self.screen(&answer);
            }
            finished
        });
        setup
    }
}

fn has_word(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| {
        let (before, after) = (&text[..at], &text[at + word.len()..]);
        let open = word.ends_with(|c: char| !c.is_alphanumeric());
        !before.ends_with(char::is_alphanumeric)
            && (open || !after.starts_with(char::is_alphanumeric))
    })
}

/// Every operation of a setup has an answer that can be read, or a refusal, and neither is long in coming;
/// and what could stand in its blanks can be read.
///
/// # Panics
///
/// Where that isn't so.
pub fn sound(setup: &Setup) {
    answered(setup);
    let reader = Reader::of(setup);
    let shop = Shop::new(setup.shop.clone());
    for operation in &setup.operations {
        in_time(operation.kind.name, || reader.blanks(operation, &shop));
    }
}

/// The same of the answers alone.
///
/// # Panics
///
/// Where that isn't so.
pub fn answered(setup: &Setup) {
    let reader = Reader::of(setup);
    let setup = &reader.begun(setup.clone());
    let shop = Shop::new(setup.shop.clone());
    for (path, why) in contradictions(&shop) {
        assert!(!path.is_empty());
        reader.readable(&why, path);
    }
    for operation in &setup.operations {
        let name = operation.kind.name;
        // Long work is watched, a moment at a time: nobody waits for the whole of it.
        let limit = if operation.takes_long() { Duration::MAX } else { GROSS };
        let answer = within(limit, name, || operation.answer(&shop));
        in_time(name, || reader.screen(&answer));
        // What is shown has been carried out on the modelled lathe, without a fault.
        if let Some(found) = answer.found.as_ref().filter(|_| answer.unmade.is_none()) {
            let fault = in_time(name, || found.steps().fault(&shop));
            assert!(fault.is_none(), "{name}: {fault:?} in {}", write_file(setup));
        }
        for lacking in &answer.lacking {
            let known =
                lacking.needs.starts_with("shop.") || lacking.needs.starts_with("operation.");
            assert!(known && !lacking.key.is_empty(), "{name}: {lacking:?}");
        }
    }
    in_time("the order of work", || order(setup));
    let all = answers(setup);
    reader.whole(&all, "answers");
    let written = serde_json::to_string(&all).unwrap_or_else(|why| panic!("{why}"));
    let again: Node = serde_json::from_str(&written).unwrap_or_else(|why| panic!("{why}"));
    let listed = items(again.get("answers").unwrap_or(&Node::Null));
    assert_eq!(listed.len(), setup.operations.len());
    for (operation, node) in setup.operations.iter().zip(listed) {
        assert_eq!(node.get("kind").and_then(Node::as_text), Some(operation.kind.name));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::panic::catch_unwind;

    #[test]
    fn spoilt_words_are_seen_whole_and_where_nobody_entered_them() {
        let reader = Reader::of(&Setup::default());
        for text in ["NaN mm", "a depth of inf", "-inf", "Some(3)", "it is None."] {
            assert!(catch_unwind(|| reader.unspoilt(text, "")).is_err(), "{text}");
        }
        reader.unspoilt("the infeed: none of Nanny's, and some (three) of yours", "");
        let named = Setup { name: "N*aN".into(), ..Setup::default() };
        Reader::of(&named).unspoilt("NaN", "");
        for node in [Node::Null, Node::Float(f64::NAN), Node::Float(f64::INFINITY)] {
            assert!(catch_unwind(|| reader.whole(&node, "answers.depth")).is_err(), "{node:?}");
        }
    }

    #[test]
    #[should_panic(expected = "an answer took")]
    fn waiting_is_seen() {
        within(Duration::ZERO, "an answer", || ());
    }
}
