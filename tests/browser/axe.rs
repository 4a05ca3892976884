//! The published rules of accessibility, run in the page.

use crate::Outcome;
use serde_json::Value;

/// All rules that axe-core has on, and two that it has off: the size of what is
/// touched, and the contrast of 7 to 1. That one says nothing of what is below 4.5 to 1: it leaves it to
/// the rule that is on.
///
/// While a menu hangs over the sheet, what it covers can't be touched, and it alone is looked at.
pub(crate) const RUN: &str = "axe.run(document.querySelector('details.menu[open]') ?? document, {
  resultTypes: ['violations'],
  rules: { 'target-size': { enabled: true }, 'color-contrast-enhanced': { enabled: true } },
}).then(({ violations, passes }) => ({
  passes: passes.length,
  violations: violations.map(({ id, help, nodes }) =>
    `${id}: ${help}\\n` + nodes.map(({ html, failureSummary }) => `  ${html}\\n  ${failureSummary}`).join('\\n')),
}))";

/// Refuses any violation, and a run that looked at nothing.
pub(crate) fn check(answer: &Value) -> Outcome {
    let violations =
        answer.get("violations").and_then(Value::as_array).ok_or("axe gave no answer")?;
    let passes = answer.get("passes").and_then(Value::as_u64).unwrap_or(0);
    if passes == 0 {
        return Err("axe found nothing to look at".into());
    }
    let violations: Vec<&str> = violations.iter().filter_map(Value::as_str).collect();
    if violations.is_empty() { Ok(()) } else { Err(violations.join("\n").into()) }
}
