//! Which rules count as judged: a spoilt procedure makes it fire, and it comes up in twenty accepted runs.

use latheside_core::lathe::Rule;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// In so many accepted runs a rule must come up.
const COMES_UP: u32 = 20;

/// The list of all rules of the model, those judged and those not, with why not.
pub(crate) fn judged(
    met: &BTreeMap<&'static str, u32>,
    fired: &BTreeMap<&'static str, u32>,
) -> String {
    let count = |of: &BTreeMap<&'static str, u32>, id| of.get(id).copied().unwrap_or(0);
    let mut yes = String::new();
    let mut no = String::new();
    let mut all = 0;
    for rule in Rule::ALL {
        let id = rule.id();
        let (met, fired) = (count(met, id), count(fired, id));
        if met >= COMES_UP && fired > 0 {
            all += 1;
            let _ = write!(yes, " {id} {met}/{fired}");
        } else {
            let why = match (met, fired) {
                (0, _) => "no run meets it",
                (_, 0) => "no spoilt action makes it fire",
                _ => "too few runs meet it",
            };
            let _ = writeln!(no, "  {id}: {why} ({met} runs, fired {fired})");
        }
    }
    assert!(all >= LEAST_JUDGED, "{all} rules are judged");
    format!("{all} rules judged (runs that meet it / times fired):{yes}\nnot judged:\n{no}")
}

/// So many rules are judged by the ordinary runs, at least.
const LEAST_JUDGED: u32 = 60;
