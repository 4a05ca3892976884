//! Where one is: parsed from and printed to the part of the address after `#`.

use std::fmt;

/// A place in the page; each has an address that the browser can bookmark.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Place {
    /// What is owned.
    Shop,
    /// The saved setups.
    #[default]
    Setups,
    /// One saved setup.
    Setup(String),
    /// One setup being carried out.
    Bench(String),
    /// One setup as it will be printed.
    Paper(String),
    /// A setup that came by link, not saved yet.
    Link(String),
}

impl Place {
    /// The place that a fragment names, its `#` on or off; what names none is the list of setups.
    pub fn parse(fragment: &str) -> Place {
        let fragment = fragment.trim_start_matches('#');
        let id = |rest: &str| {
            let plain = rest.chars().all(|c| c.is_ascii_alphanumeric() || c == '-');
            (plain && !rest.is_empty() && rest.len() <= 40).then(|| rest.to_owned())
        };
        if fragment == "shop" {
            return Place::Shop;
        }
        if let Some(id) = fragment.strip_prefix("setup/").and_then(id) {
            return Place::Setup(id);
        }
        if let Some(id) = fragment.strip_prefix("bench/").and_then(id) {
            return Place::Bench(id);
        }
        if let Some(id) = fragment.strip_prefix("paper/").and_then(id) {
            return Place::Paper(id);
        }
        let link = fragment
            .trim_start_matches("%23")
            .strip_prefix('s')
            .and_then(|rest| rest.split_once('.'));
        if link.is_some_and(|(version, _)| version.parse::<u8>().is_ok()) {
            return Place::Link(fragment.to_owned());
        }
        Place::Setups
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Place::Shop => f.write_str("#shop"),
            Place::Setups => f.write_str("#setups"),
            Place::Setup(id) => write!(f, "#setup/{id}"),
            Place::Bench(id) => write!(f, "#bench/{id}"),
            Place::Paper(id) => write!(f, "#paper/{id}"),
            Place::Link(link) => write!(f, "#{link}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_prints_and_parses_to_itself() {
        for place in [
            Place::Shop,
            Place::Setups,
            Place::Setup("k3x9".into()),
            Place::Bench("k3x9".into()),
            Place::Paper("k3x9".into()),
            Place::Link("s1.AbC-_".into()),
        ] {
            assert_eq!(Place::parse(&place.to_string()), place);
        }
        for odd in ["", "#", "#setup/", "#setup/<b>", "#elsewhere", "#sx.abc", "#bench/../x"] {
            assert_eq!(Place::parse(odd), Place::Setups, "{odd}");
        }
    }
}
