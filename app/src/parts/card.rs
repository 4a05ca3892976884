use super::{Blank, drawn};
use crate::state::{Library, Target};
use latheside_core::operation::{Answer, Card, Line, Span, Tone};
use latheside_core::record::Value;
use leptos::prelude::*;

/// Lines of figures and words.
pub(crate) fn lines(lines: Vec<Line>) -> impl IntoView {
    lines
        .into_iter()
        .map(|line| {
            let spans = line.into_iter().map(|span| match span {
                Span::Figure(text) => view! { <b>{text}</b> }.into_any(),
                Span::Word(text) => view! { <span>{text}</span> }.into_any(),
            });
            view! { <p class="setting">{spans.collect_view()}</p> }
        })
        .collect_view()
}

/// An answer: the setting large, how it stands, the drawing, the rest to open.
#[component]
pub(crate) fn AnswerCard(
    /// The answer.
    answer: Answer,
    /// What it was for, where what is typed now isn't understood.
    stale: Option<String>,
) -> impl IntoView {
    let card = answer.found.as_ref().map(|found| found.card());
    let refused = answer.refused.clone().map(|why| view! { <p class="refused">{why}</p> });
    let lacking = lacking(&answer);
    let why = why(&answer);
    let cautions = (!answer.cautions.is_empty()).then(|| {
        let items = answer.cautions.iter().map(|caution| view! { <li>{*caution}</li> });
        view! { <ul class="cautions" aria-label="Cautions">{items.collect_view()}</ul> }
    });
    let old = stale.is_some();
    let stale = stale.map(|words| view! { <p class="stale-for">"was for: "{words}</p> });
    view! {
        <div class="answer" class:stale=old>
            {stale}
            {card.map(card_view)}
            {refused}
            {lacking}
            {why}
            {cautions}
        </div>
    }
}

fn card_view(card: Card) -> impl IntoView {
    let verdict = card.verdict.map(|(tone, words)| {
        let (class, mark) = match tone {
            Tone::Good => ("verdict good", "✓ "),
            Tone::Note => ("verdict note", "≈ "),
            Tone::Mind => ("verdict mind", "! "),
        };
        view! { <p class=class><span aria-hidden="true">{mark}</span>{words}</p> }
    });
    let picture = card.picture.as_ref().map(|picture| {
        view! { <div class="drawing" inner_html=drawn(picture)></div> }
    });
    let facts = (!card.facts.is_empty()).then(|| {
        let rows = card.facts.into_iter().map(|fact| {
            view! { <div><dt>{fact.label}</dt><dd>{fact.value}</dd></div> }
        });
        view! { <dl class="facts">{rows.collect_view()}</dl> }
    });
    let others = (!card.others.is_empty()).then(|| {
        let (usable, not): (Vec<_>, Vec<_>) = card.others.into_iter().partition(|o| o.usable);
        let rows = |others: Vec<latheside_core::operation::Other>| {
            others
                .into_iter()
                .map(|other| view! { <li><b>{other.line}</b>" "<span>{other.note}</span></li> })
                .collect_view()
        };
        let hidden = not.len();
        view! {
            <details class="fold">
                <summary>{format!("{} ({})", card.others_title, usable.len())}</summary>
                <ol class="others">{rows(usable)}</ol>
                {(hidden > 0).then(|| view! {
                    <details class="fold">
                        <summary>{format!("that can't be set up here ({hidden})")}</summary>
                        <ol class="others">{rows(not)}</ol>
                    </details>
                })}
            </details>
        }
    });
    view! {
        <div class="settings">{lines(card.lines)}</div>
        {verdict}
        {picture}
        {facts}
        {others}
    }
}

/// What the answer waits for: an entry of the shop is asked for in place.
fn lacking(answer: &Answer) -> Option<impl IntoView + use<>> {
    let library = expect_context::<Library>();
    let mut places: Vec<&'static str> =
        answer.lacking.iter().map(|lacking| lacking.needs).collect();
    places.dedup();
    let shop = library.shop();
    let asks: Vec<_> = places
        .into_iter()
        .filter_map(|place| {
            let path = place.strip_prefix("shop.")?;
            let (path, key) = path.rsplit_once('.').unwrap_or(("", path));
            let mut shop = shop.clone();
            let (field, text) = shop.change(path, |form| {
                Some((form.spec().field(key)?, form.get(key).map(Value::text)))
            })??;
            let asked_for = !matches!(
                field.shape,
                latheside_core::record::Shape::Record(_)
                    | latheside_core::record::Shape::List(
                        latheside_core::record::Shape::Record(_),
                        ..
                    )
            );
            Some((path.to_owned(), field, text, asked_for))
        })
        .collect();
    (!asks.is_empty()).then(|| {
        let asks = asks.into_iter().map(|(path, field, text, asked_for)| {
            if asked_for {
                let target = Target::Shop(path);
                view! {
                    <p class="ask">
                        {format!("More could be said with the {}: ", field.label)}
                        <Blank target key=field.key label=field.label text assumed=false />
                    </p>
                }
                .into_any()
            } else {
                view! {
                    <p class="ask">
                        {format!("More could be said with the {}: ", field.label)}
                        <a class="inline" href="#shop">"enter it in the shop"</a>
                    </p>
                }
                .into_any()
            }
        });
        view! { <div class="asks">{asks.collect_view()}</div> }
    })
}

fn why(answer: &Answer) -> Option<impl IntoView + use<>> {
    (!answer.why.is_empty()).then(|| {
        let rows = answer.why.iter().map(|why| {
            view! {
                <div class="why">
                    <p class="formula">{why.formula.clone()}</p>
                    <p class="values">{why.values.clone()}</p>
                    <p class="source">{why.source.clone()}</p>
                </div>
            }
        });
        view! {
            <details class="fold">
                <summary>"why"</summary>
                {rows.collect_view()}
            </details>
        }
    })
}
