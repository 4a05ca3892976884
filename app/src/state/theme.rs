//! The three grounds that the page can be drawn on.

/// A ground, or whichever the device asks for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Theme {
    /// As the device has it.
    #[default]
    Device,
    /// Marking-out blue.
    Blue,
    /// Drawing paper.
    Paper,
    /// For the sun.
    Sun,
}

impl Theme {
    /// All of them, in the order of the menu.
    pub(crate) const ALL: [Theme; 4] = [Theme::Device, Theme::Blue, Theme::Paper, Theme::Sun];

    /// Its word in storage and in the page.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Theme::Device => "device",
            Theme::Blue => "blue",
            Theme::Paper => "paper",
            Theme::Sun => "sun",
        }
    }

    /// What the menu calls it.
    pub(crate) const fn label(self) -> &'static str {
        match self {
            Theme::Device => "as the device",
            Theme::Blue => "marking-out blue",
            Theme::Paper => "drawing paper",
            Theme::Sun => "sunlight",
        }
    }

    /// The theme of a word; the device's where there is none such.
    pub(crate) fn of(word: &str) -> Theme {
        Theme::ALL.into_iter().find(|theme| theme.word() == word).unwrap_or_default()
    }
}
