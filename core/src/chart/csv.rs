//! The chart as text that any spreadsheet reads.

use super::lathe::Lathe;
use super::row::{Row, Standing};
use crate::quantity::show;
use alloc::format;
use alloc::string::{String, ToString};

/// The chart as comma-separated values, one line a row and a line of headings above (RFC 4180:
/// lines end in CR LF, and what has a comma or a quotation mark in it is quoted).
///
/// Leads are in mm; the error is (cut − wanted)/wanted in parts per million; the share is that of
/// the pitch diameter's tolerance in the usual class.
#[must_use]
pub fn csv(lathe: &Lathe, rows: impl Iterator<Item = Row>) -> String {
    let mut text = String::from(
        "thread,lead mm,driver 1,driven 1,driver 2,driven 2,driver 3,driven 3,gearbox,lead cut mm,\
         error ppm,share of tolerance,standing\r\n",
    );
    for row in rows {
        cell(&mut text, &row.thread.to_string());
        cell(&mut text, &number(row.lead.to_f64(), 6));
        for at in 0..3 {
            let pair = row.train.as_ref().and_then(|train| train.pairs().get(at));
            cell(&mut text, &pair.map_or_else(String::new, |pair| pair.driver.to_string()));
            cell(&mut text, &pair.map_or_else(String::new, |pair| pair.driven.to_string()));
        }
        let train = row.train.as_ref();
        let gearbox = train.map(|train| match lathe.position(train) {
            (_, Some(how)) => String::from(how),
            // Not as a bare fraction, which a spreadsheet takes for a date.
            (ratio, None) => format!("{}:{}", ratio.numer(), ratio.denom()),
        });
        cell(&mut text, &gearbox.unwrap_or_default());
        let cut = train.and_then(|train| lathe.cuts(train).ok());
        cell(&mut text, &cut.map_or_else(String::new, |cut| number(cut.to_f64(), 6)));
        let error = train.map(|train| number(train.error_ppm(), 3));
        cell(&mut text, &error.unwrap_or_default());
        cell(&mut text, &row.share.map_or_else(String::new, |share| number(share, 4)));
        text.push_str(word(row.standing));
        text.push_str("\r\n");
    }
    text
}

/// One line of comma-separated values.
pub fn csv_line(text: &mut String, cells: &[&str]) {
    for value in cells {
        cell(text, value);
    }
    // Not after the last.
    text.pop();
    text.push_str("\r\n");
}

/// A standing in one word.
#[must_use]
pub const fn word(standing: Standing) -> &'static str {
    match standing {
        Standing::Exact => "exact",
        Standing::Within => "near enough",
        Standing::Untold => "near",
        Standing::Beyond => "too far off",
        Standing::None => "nothing goes on",
    }
}

fn number(value: f64, places: u32) -> String {
    show::float_trimmed(value, places).replace('−', "-")
}

fn cell(text: &mut String, value: &str) {
    if value.contains([',', '"', '\r', '\n']) {
        text.push('"');
        text.push_str(&value.replace('"', "\"\""));
        text.push('"');
    } else {
        text.push_str(value);
    }
    text.push(',');
}
