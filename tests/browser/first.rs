//! Somebody new, from opening the page to a first setting that can be used: each tap counted.

use crate::phone::Phone;
use crate::{Outcome, ensure};

/// Taps and letters, counted as they are made.
struct Counted<'a> {
    phone: &'a Phone,
    taps: usize,
    letters: usize,
}

impl Counted<'_> {
    async fn tap(&mut self, css: &str) -> Outcome {
        self.taps += 1;
        self.phone.tap(css).await
    }

    /// Types into the field that opened by itself or by the last tap.
    async fn types(&mut self, words: &str) -> Outcome {
        self.phone.until("document.activeElement?.id === 'keypad-field'").await?;
        self.letters += words.chars().count();
        self.phone.keyboard(words).await
    }
}

/// The lead that the gears in sight cut, in millimetres, on a leadscrew of so many.
async fn lead(phone: &Phone, leadscrew: f64) -> Outcome<f64> {
    let train = phone.figures("#op-0").await?;
    let teeth: Vec<f64> = train.iter().filter_map(|figure| figure.parse().ok()).collect();
    ensure(teeth.len() >= 2 && teeth.len().is_multiple_of(2), format!("a train of {train:?}"))?;
    Ok(teeth.chunks(2).map(|pair| pair[0] / pair[1]).product::<f64>() * leadscrew)
}

pub(crate) async fn the_gears_for_m10_by_1_take_few_taps(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    let mut example = Counted { phone, taps: 0, letters: 0 };
    example.tap("#blank-0-designation").await?;
    example.types("M10x1").await?;
    example.tap("[data-do=done]").await?;
    phone.says("#op-0 .verdict", "exact").await?;
    // The pitch of M10 × 1 is 1 mm, as it says; the example's leadscrew is one of 3 mm.
    let cut = lead(phone, 3.0).await?;
    ensure((cut - 1.0).abs() < 1e-9, format!("the example cuts {cut} mm"))?;
    println!(
        "gears for M10 x 1 with the example shop: {} taps and {} letters",
        example.taps, example.letters
    );
    ensure(example.taps <= 5, "more than five taps with the example shop")?;

    let other = phone.stranger().await?;
    other.open("").await?;
    let mut own = Counted { phone: &other, taps: 0, letters: 0 };
    // A lathe described from nothing: what lacks is asked for where the answer will stand.
    own.tap("nav.block a:nth-child(1)").await?;
    own.tap("header .menu summary").await?;
    own.tap("[data-do=empty-shop]").await?;
    own.tap("nav.block a:nth-child(2)").await?;
    own.tap("#blank-0-designation").await?;
    own.types("M10x1").await?;
    own.tap("[data-do=done]").await?;
    own.tap("#op-0 #blank-lathe-leadscrew").await?;
    own.types("6 mm").await?;
    own.tap("[data-do=done]").await?;
    own.tap("#op-0 #blank-lathe-change_gears").await?;
    own.types("20-100 by 5").await?;
    own.tap("[data-do=done]").await?;
    other.says("#op-0 .verdict", "exact").await?;
    let cut = lead(&other, 6.0).await?;
    ensure((cut - 1.0).abs() < 1e-9, format!("one's own lathe cuts {cut} mm"))?;
    println!(
        "gears for M10 x 1 on a lathe described from nothing: {} taps and {} letters",
        own.taps, own.letters
    );
    ensure(own.taps <= 11, "more taps than it was for one's own lathe")
}
